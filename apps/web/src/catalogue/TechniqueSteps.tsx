import type { ReactNode } from "react";
import { formatNumber, getMessages } from "#texts";
import type { AnswerOf } from "#contracts/operations";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";

type Step = AnswerOf<"listTechniques">["techniques"][number]["steps"][number];

/** The steps of a technique from left to right, as time flows. */
export function TechniqueSteps({ steps }: { steps: readonly Step[] }): ReactNode {
  return (
    <ol className="technique-line">
      {steps.map((step) => (
        <StepView key={step.key} step={step} />
      ))}
    </ol>
  );
}

function StepView({ step }: { step: Step }): ReactNode {
  const { techniques: t } = useTexts().catalogue;
  const when = useWhen(step);
  const lines = [
    ...useMaterialLines(step),
    step.applicationSeconds === null ? "" : t.apply(step.applicationSeconds),
    step.airDrySeconds === null ? "" : t.dry(step.airDrySeconds),
    step.cureSeconds === null ? "" : t.cure(step.cureSeconds),
    ...useCoatLines(step),
    step.required ? "" : t.optional,
    when,
  ];
  return (
    <li className={step.required && when === "" ? undefined : "optional"}>
      <h3>{step.name}</h3>
      {lines.map((line) => (line === "" ? null : <p key={line}>{line}</p>))}
    </li>
  );
}

function useMaterialLines(step: Step): readonly string[] {
  const { techniques: t } = useTexts().catalogue;
  const { language } = useFormats();
  const { productKinds, solvents } = getMessages(language);
  const { solventsAllowed, solventNeeded } = step;
  const accepts = step.accepts.map((kind) => productKinds[kind]).join(", ");
  return [
    accepts === "" ? t.noMaterial : accepts,
    step.etchesDentin ? t.etches : "",
    solventNeeded === null ? "" : t.needs(solvents[solventNeeded]),
    solventsAllowed === null
      ? ""
      : t.onlySolvents(solventsAllowed.map((one) => solvents[one]).join(", ")),
  ];
}

function useCoatLines(step: Step): readonly string[] {
  const { technique: t } = useTexts();
  const { language } = useFormats();
  const number = (value: number): string => formatNumber(language, value);
  const { lightDistanceTenthMm: distance, thicknessTenthMm: range } = step;
  return [
    distance === null ? "" : t.light(number(distance / 10)),
    range === null ? "" : t.thickness(number(range.min / 10), number(range.max / 10)),
    step.minFillerPercent === null ? "" : t.filler(number(step.minFillerPercent)),
    step.minModulusGpa === null ? "" : t.modulus(number(step.minModulusGpa)),
  ];
}

/** For which teeth a step is, in words; empty where it is for every one. */
function useWhen({ when }: Step): string {
  const t = useTexts();
  if (when === null) return "";
  const words = t.technique.when;
  const said = [
    when.modes === null
      ? ""
      : words.modes(when.modes.map((mode) => t.chairside.modes[mode]).join(", ")),
    when.provisional === null ? "" : words.provisional[when.provisional],
    when.undercut === null ? "" : words.undercut[when.undercut ? "yes" : "no"],
  ].filter((word) => word !== "");
  return `${words.label}: ${said.join(", ")}`;
}
