import type { ReactNode } from "react";
import {
  productKinds,
  provisionalKinds,
  solvents,
  toothModes,
  type ProvisionalKind,
  type Solvent,
} from "#domain";
import { getMessages } from "#texts";
import { ApiProblem } from "../api/problem.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { CheckField, Select, TextField } from "../ui/Field.tsx";
import { listWrong, type NumberField, type StepDraft } from "./technique-draft.ts";

interface StepFieldsProps {
  step: StepDraft;
  index: number;
  isLast: boolean;
  /** Of the last try to save. */
  error: unknown;
  /** Whether what is wrong is told already. */
  tried: boolean;
  onChange: (part: Partial<StepDraft>) => void;
  onMove: (by: number) => void;
  onRemove: () => void;
}

/** One step of a technique: what, with which material, how long; the rest behind a tap. */
export function StepFields(props: StepFieldsProps): ReactNode {
  const { step, index, error, tried, onChange } = props;
  const { technique: t } = useTexts();
  const faults = useFaults(error, index);
  const hasMore = faults.length > 0 || tellsMore(step);
  return (
    <fieldset className="panel step-fields">
      <legend>{t.stepTitle(index + 1, step.name)}</legend>
      <StepActs {...props} />
      {faults.map((fault) => (
        <p key={fault} className="field-error" role="alert">
          {fault}
        </p>
      ))}
      <div className="step-times">
        <TextField
          label={t.stepName}
          value={step.name}
          maxLength={80}
          required
          onChange={({ target }) => onChange({ name: target.value })}
        />
        <NumberInput
          {...{ step, tried, onChange }}
          field="applicationSeconds"
          label={t.application}
        />
        <NumberInput {...{ step, tried, onChange }} field="airDrySeconds" label={t.airDry} />
        <NumberInput {...{ step, tried, onChange }} field="cureSeconds" label={t.cure} />
      </div>
      <MaterialChoice step={step} onChange={onChange} />
      <CheckField
        label={t.required}
        checked={step.required}
        onChange={({ target }) => onChange({ required: target.checked })}
      />
      <details open={hasMore}>
        <summary className="link">{t.more}</summary>
        <SolventFields step={step} onChange={onChange} />
        <div className="step-times">
          <NumberInput
            {...{ step, tried, onChange }}
            field="lightDistance"
            label={t.lightDistance}
          />
          <NumberInput {...{ step, tried, onChange }} field="minThickness" label={t.minThickness} />
          <NumberInput {...{ step, tried, onChange }} field="maxThickness" label={t.maxThickness} />
          <NumberInput {...{ step, tried, onChange }} field="minFiller" label={t.minFiller} />
          <NumberInput {...{ step, tried, onChange }} field="minModulus" label={t.minModulus} />
        </div>
        <ConditionFields step={step} onChange={onChange} />
      </details>
    </fieldset>
  );
}

/** Whether a step says something that stands behind the tap. */
function tellsMore(step: StepDraft): boolean {
  const { solventNeeded, solventsAllowed, modes, provisional, undercut, etchesDentin } = step;
  const texts = [step.lightDistance, step.minThickness, step.minFiller, step.minModulus];
  return (
    etchesDentin ||
    solventNeeded !== "" ||
    solventsAllowed.length + modes.length > 0 ||
    provisional !== "" ||
    undercut !== "any" ||
    texts.some((text) => text !== "")
  );
}

/** What the server found wrong in this step, in words. */
function useFaults(error: unknown, index: number): readonly string[] {
  const { faults } = useTexts().technique;
  if (!(error instanceof ApiProblem)) return [];
  return error.errors
    .filter(({ path }) => path.startsWith(`/body/steps/${index}/`))
    .map(({ message }) => faults[message] ?? message);
}

function StepActs({ index, isLast, onMove, onRemove }: StepFieldsProps): ReactNode {
  const { technique: t } = useTexts();
  return (
    <div className="actions">
      <Button disabled={index === 0} onClick={() => onMove(-1)}>
        {t.up}
      </Button>
      <Button disabled={isLast} onClick={() => onMove(1)}>
        {t.down}
      </Button>
      <Button onClick={onRemove}>{t.remove}</Button>
    </div>
  );
}

type StepPartProps = Pick<StepFieldsProps, "step" | "onChange">;

interface NumberInputProps extends StepPartProps {
  field: NumberField;
  label: string;
  tried: boolean;
}

function NumberInput({ step, field, label, tried, onChange }: NumberInputProps): ReactNode {
  const { technique: t } = useTexts();
  const isWrong = tried && listWrong(step).includes(field);
  return (
    <TextField
      label={label}
      inputMode="decimal"
      value={step[field]}
      error={isWrong ? t.wrongNumber : undefined}
      onChange={({ target }) => onChange({ [field]: target.value })}
    />
  );
}

const toggle = <T,>(chosen: readonly T[], one: T): readonly T[] =>
  chosen.includes(one) ? chosen.filter((other) => other !== one) : [...chosen, one];

function MaterialChoice({ step, onChange }: StepPartProps): ReactNode {
  const { technique: t } = useTexts();
  const { language } = useFormats();
  const { productKinds: names } = getMessages(language);
  return (
    <fieldset className="checks-of">
      <legend>{t.accepts}</legend>
      {productKinds.map((kind) => (
        <CheckField
          key={kind}
          label={names[kind]}
          checked={step.accepts.includes(kind)}
          onChange={() => onChange({ accepts: toggle(step.accepts, kind) })}
        />
      ))}
    </fieldset>
  );
}

function SolventFields({ step, onChange }: StepPartProps): ReactNode {
  const { technique: t } = useTexts();
  const { language } = useFormats();
  const { solvents: names } = getMessages(language);
  return (
    <>
      <CheckField
        label={t.etchesDentin}
        checked={step.etchesDentin}
        onChange={({ target }) => onChange({ etchesDentin: target.checked })}
      />
      <Select
        label={t.solventNeeded}
        value={step.solventNeeded}
        onChange={({ target }) => onChange({ solventNeeded: target.value as Solvent | "" })}
      >
        <option value="">{t.anySolvent}</option>
        {solvents.map((solvent) => (
          <option key={solvent} value={solvent}>
            {names[solvent]}
          </option>
        ))}
      </Select>
      <fieldset className="checks-of">
        <legend>{t.solventsAllowed}</legend>
        {solvents.map((solvent) => (
          <CheckField
            key={solvent}
            label={names[solvent]}
            checked={step.solventsAllowed.includes(solvent)}
            onChange={() => onChange({ solventsAllowed: toggle(step.solventsAllowed, solvent) })}
          />
        ))}
      </fieldset>
    </>
  );
}

const undercuts = ["any", "yes", "no"] as const;

function ConditionFields({ step, onChange }: StepPartProps): ReactNode {
  const { technique: t, chairside, tray } = useTexts();
  return (
    <>
      <fieldset className="checks-of">
        <legend>{t.modes}</legend>
        {toothModes.map((mode) => (
          <CheckField
            key={mode}
            label={chairside.modes[mode]}
            checked={step.modes.includes(mode)}
            onChange={() => onChange({ modes: toggle(step.modes, mode) })}
          />
        ))}
      </fieldset>
      <div className="pair">
        <Select
          label={t.provisional}
          value={step.provisional}
          onChange={({ target }) => onChange({ provisional: target.value as ProvisionalKind | "" })}
        >
          <option value="">{t.anyProvisional}</option>
          {provisionalKinds.map((kind) => (
            <option key={kind} value={kind}>
              {tray.plan.provisionals[kind]}
            </option>
          ))}
        </Select>
        <Select
          label={t.undercut}
          value={step.undercut}
          onChange={({ target }) => onChange({ undercut: target.value as StepDraft["undercut"] })}
        >
          {undercuts.map((one) => (
            <option key={one} value={one}>
              {t.undercuts[one]}
            </option>
          ))}
        </Select>
      </div>
    </>
  );
}
