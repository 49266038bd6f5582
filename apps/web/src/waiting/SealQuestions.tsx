import type { ReactNode } from "react";
import type { SealOfTooth } from "#contracts/waiting";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Choice } from "../ui/Field.tsx";
import type { SealChoice } from "./useSealChoice.ts";
import { showTooth } from "../texts/tooth-notation.ts";

/** Asks, tooth by tooth, which seal is bonded to. Nothing where each has exactly one. */
export function SealQuestions({ choice }: { choice: SealChoice }): ReactNode {
  const { choice: t } = useTexts().waiting;
  const { date } = useFormats();
  if (choice.teeth.length === 0) return null;
  const say = ({ sealedOn, bonded, off }: SealOfTooth): string => {
    const day = date(sealedOn);
    if (bonded) return t.bonded(day);
    return off ? t.off(day) : t.seal(day);
  };
  return (
    <section className="panel">
      <h2>{t.title}</h2>
      <p>{t.text}</p>
      {choice.teeth.map(({ tooth, seals }) => (
        <Choice
          key={tooth}
          label={t.of(showTooth(tooth))}
          options={[
            ...seals.map((seal) => ({ value: seal.sealId, label: say(seal) })),
            { value: "none", label: t.none },
          ]}
          value={choice.chosen[tooth] ?? null}
          onChoose={(seal) => choice.choose(tooth, seal)}
        />
      ))}
    </section>
  );
}
