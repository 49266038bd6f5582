import { useState, type ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { TextArea } from "../ui/Field.tsx";
import type { RecordView } from "./steps.ts";
import type { RecordStep } from "./timer.ts";
import { useRecordEvent } from "./useChairWork.ts";
import { showTooth } from "../texts/tooth-notation.ts";

export interface StepDialogProps {
  record: RecordView;
  step: RecordStep;
  /** The record's own id, and those of the teeth that go through the step with it. */
  recordIds: readonly string[];
  onClose: () => void;
}

const named = ["blood", "saliva", "primed-again", "dropped"] as const;

/** What was done otherwise than planned: by one tap, or in words. */
export function DeviationDialog({ record, step, onClose }: StepDialogProps): ReactNode {
  const t = useTexts();
  const announce = useAnnounce();
  const write = useRecordEvent([record.id]);
  const [text, setText] = useState("");
  function save(what: (typeof named)[number] | "other"): void {
    onClose();
    const body = { kind: "deviation", stepKey: step.key, what, text } as const;
    void write(body, t.chairside.deviation).then((isSaved) => {
      if (isSaved) announce({ text: t.chairside.deviationSaved });
    });
  }
  return (
    <Dialog
      title={`${t.chairside.deviationTitle} ${t.chairside.tooth(showTooth(record.tooth))}`}
      onClose={onClose}
      closeLabel={t.common.cancel}
    >
      <div className="deviations">
        {named.map((what) => (
          <Button key={what} className="huge" onClick={() => save(what)}>
            {t.chairside.deviations[what]}
          </Button>
        ))}
      </div>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          save("other");
        }}
      >
        <TextArea
          label={t.chairside.deviationText}
          hint={t.chairside.deviationHint}
          value={text}
          maxLength={2000}
          onChange={(event) => setText(event.target.value)}
        />
        <Button kind="main" type="submit" disabled={text.trim() === ""}>
          {t.common.save}
        </Button>
      </form>
    </Dialog>
  );
}
