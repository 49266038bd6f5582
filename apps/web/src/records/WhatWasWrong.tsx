import type { ReactNode } from "react";
import { showContainerCode } from "#domain";
import { sayEvent } from "#texts";
import type { AnswerOf } from "#contracts/operations";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { CheckField } from "../ui/Field.tsx";

/** What is not carried on: entries by their numbers, materials by their ids. */
export interface Wrong {
  events: number[];
  materials: string[];
}

/** What a person has told besides the work itself; the server refuses the rest. */
const removable = new Set(["deviation", "note", "thickness", "cure", "dispensed", "material"]);

interface WhatWasWrongProps {
  record: AnswerOf<"getRecord">;
  wrong: Wrong;
  onChange: (wrong: Wrong) => void;
}

/** What of a record does not hold, ticked line by line. */
export function WhatWasWrong({ record, wrong, onChange }: WhatWasWrongProps): ReactNode {
  const { amend: t, records } = useTexts();
  const { language } = useFormats();
  const names = new Map(record.technique.steps.map(({ key, name }) => [key, name]));
  const nameOf = (key: string | null): string => (key === null ? "" : (names.get(key) ?? key));
  const entries = record.events.filter(({ kind }) => removable.has(kind));
  return (
    <fieldset className="panel">
      <legend>{t.wrong}</legend>
      <p className="hint">{t.wrongLead}</p>
      <h3>{t.wrongMaterials}</h3>
      {record.materials.map(({ id, stepKey, productName, lot, containerCode }) => (
        <CheckField
          key={id}
          label={[
            `${nameOf(stepKey)}: ${productName}`,
            lot === null ? "" : records.record.lot(lot),
            containerCode === null ? "" : showContainerCode(containerCode),
          ]
            .filter((word) => word !== "")
            .join(" · ")}
          checked={wrong.materials.includes(id)}
          onChange={() => onChange({ ...wrong, materials: toggle(wrong.materials, id) })}
        />
      ))}
      {entries.length === 0 ? null : <h3>{t.wrongEntries}</h3>}
      {entries.map((event) => {
        const { title, details } = sayEvent(language, event, nameOf(event.stepKey));
        return (
          <CheckField
            key={event.sequence}
            label={[title, ...details].join(" · ")}
            checked={wrong.events.includes(event.sequence)}
            onChange={() => onChange({ ...wrong, events: toggle(wrong.events, event.sequence) })}
          />
        );
      })}
    </fieldset>
  );
}

const toggle = <T,>(chosen: readonly T[], one: T): T[] =>
  chosen.includes(one) ? chosen.filter((other) => other !== one) : [...chosen, one];
