import { useState, type ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { TextArea } from "../ui/Field.tsx";
import type { RecordView } from "./steps.ts";
import type { RecordStep } from "./timer.ts";
import { useRecordEvent } from "./useChairWork.ts";

export interface StepDialogProps {
  record: RecordView;
  step: RecordStep;
  onClose: () => void;
}

/** What was done otherwise than planned, in words. */
export function DeviationDialog({ record, step, onClose }: StepDialogProps): ReactNode {
  const t = useTexts();
  const announce = useAnnounce();
  const write = useRecordEvent(record.id);
  const [text, setText] = useState("");
  return (
    <Dialog title={t.chairside.deviationTitle} onClose={onClose} closeLabel={t.common.cancel}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          onClose();
          const saved = write(
            { kind: "deviation", stepKey: step.key, text },
            t.chairside.deviation,
          );
          void saved.then((isSaved) => {
            if (isSaved) announce({ text: t.chairside.deviationSaved });
          });
        }}
      >
        <TextArea
          label={t.chairside.deviationText}
          value={text}
          maxLength={2000}
          required
          onChange={(event) => setText(event.target.value)}
        />
        <Button kind="main" type="submit" disabled={text.trim() === ""}>
          {t.common.save}
        </Button>
      </form>
    </Dialog>
  );
}
