import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import type { Tray } from "../tray/columns.ts";
import type { RecordView } from "./steps.ts";
import { showTooth } from "../texts/tooth-notation.ts";

interface TeethTabsProps {
  records: readonly RecordView[];
  teeth: Tray["teeth"];
  current: string;
  onChoose: (recordId: string) => void;
}

/** The teeth of a visit side by side, each with its mode and whether it is signed. */
export function TeethTabs({ records, teeth, current, onChoose }: TeethTabsProps): ReactNode {
  const t = useTexts();
  return (
    <div className="teeth-tabs" role="group" aria-label={t.chairside.teeth}>
      {records.map(({ id, tooth, state, steps }) => {
        const mode = teeth.find((one) => one.tooth === tooth)?.mode ?? null;
        const isSigned = state !== "draft";
        const done = steps.filter((step) => step.done || step.leftOut).length;
        return (
          <button
            key={id}
            type="button"
            className={isSigned ? "tooth-tab signed" : "tooth-tab"}
            aria-pressed={id === current}
            onClick={() => onChoose(id)}
          >
            <span className="tooth-tab-name">{t.chairside.tooth(showTooth(tooth))}</span>
            <span className="tooth-tab-more">
              {mode === null ? "" : `${t.chairside.modes[mode]} · `}
              {isSigned ? t.chairside.signed : t.chairside.stepsDone(done, steps.length)}
            </span>
          </button>
        );
      })}
    </div>
  );
}
