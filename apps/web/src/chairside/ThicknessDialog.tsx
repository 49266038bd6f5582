import { useState, type ReactNode } from "react";
import { formatNumber } from "#texts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import type { StepDialogProps } from "./DeviationDialog.tsx";
import { useRecordEvent } from "./useChairWork.ts";
import { showTooth } from "../texts/tooth-notation.ts";

const most = 100;

/** How thick the coat is, in tenths of a millimetre, against what the technique wants. */
export function ThicknessDialog({ record, step, onClose }: StepDialogProps): ReactNode {
  const { chairside: t, common } = useTexts();
  const { language } = useFormats();
  const announce = useAnnounce();
  const write = useRecordEvent([record.id]);
  const range = step.thickness;
  const [tenthMm, setTenthMm] = useState(range?.measured ?? range?.min ?? 5);
  const shown = (value: number): string => t.millimetres(formatNumber(language, value / 10));
  const change = (by: number): void => setTenthMm(Math.min(Math.max(tenthMm + by, 0), most));
  const isOutside = range !== null && (tenthMm < range.min || tenthMm > range.max);
  return (
    <Dialog
      title={`${t.thicknessTitle(step.name)} · ${t.tooth(showTooth(record.tooth))}`}
      onClose={onClose}
      closeLabel={common.cancel}
      actions={
        <Button
          kind="main"
          className="big"
          onClick={() => {
            onClose();
            const body = { kind: "thickness", stepKey: step.key, tenthMm } as const;
            void write(body, t.thickness).then((isSaved) => {
              if (isSaved) announce({ text: t.thicknessSaved(shown(tenthMm)) });
            });
          }}
        >
          {common.save}
        </Button>
      }
    >
      <div className="thickness">
        <Button className="huge" aria-label={common.fewer(t.thickness)} onClick={() => change(-1)}>
          −
        </Button>
        <output className={isOutside ? "thickness-value outside" : "thickness-value"}>
          {shown(tenthMm)}
        </output>
        <Button className="huge" aria-label={common.more(t.thickness)} onClick={() => change(1)}>
          +
        </Button>
      </div>
      {range === null ? null : (
        <p role="status">
          {t.thicknessRange(shown(range.min), shown(range.max))}
          {isOutside ? ` ${t.thicknessOutside}` : ""}
        </p>
      )}
    </Dialog>
  );
}
