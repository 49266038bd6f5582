import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { CheckField } from "../ui/Field.tsx";
import type { RecordView } from "./steps.ts";
import { showTooth } from "../texts/tooth-notation.ts";

interface TeethWithProps {
  /** Teeth whose next step is this one, too. */
  others: readonly RecordView[];
  apart: ReadonlySet<string>;
  onChange: (recordId: string, isWith: boolean) => void;
}

/** Which other teeth go through this step at the same time; a tap takes one out. */
export function TeethWith({ others, apart, onChange }: TeethWithProps): ReactNode {
  const t = useTexts();
  if (others.length === 0) return null;
  return (
    <div className="teeth-with" role="group" aria-label={t.chairside.alsoAt}>
      <span>{t.chairside.alsoAt}</span>
      {others.map(({ id, tooth }) => (
        <CheckField
          key={id}
          label={t.chairside.tooth(showTooth(tooth))}
          checked={!apart.has(id)}
          onChange={({ target }) => onChange(id, target.checked)}
        />
      ))}
    </div>
  );
}
