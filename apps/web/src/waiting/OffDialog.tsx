import { useState, type FormEvent, type ReactNode } from "react";
import type { WaitingSeal } from "#contracts/waiting";
import { useRefresh, useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { Choice, TextField } from "../ui/Field.tsx";
import { fieldError, ProblemNote } from "../ui/States.tsx";
import { showTooth } from "../texts/tooth-notation.ts";

type Reason = NonNullable<WaitingSeal["off"]>["reason"];

/** Takes a sealed tooth off the list, with a reason that stays. */
export function OffDialog({
  seal,
  onClose,
}: {
  seal: WaitingSeal;
  onClose: () => void;
}): ReactNode {
  const { common, waiting } = useTexts();
  const { off: t } = waiting;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [reason, setReason] = useState<Reason | null>(null);
  const [note, setNote] = useState("");
  const change = useWrite("changeWaiting", () => {
    refresh("listWaiting", "getToday", "getTraySeals");
    announce({ text: t.done });
    onClose();
  });
  const needsNote = reason === "other";
  function submit(event: FormEvent): void {
    event.preventDefault();
    if (reason === null) return;
    change.mutate({
      params: { sealId: seal.sealId },
      body: { waits: false, reason, note: note.trim() },
    });
  }
  return (
    <Dialog
      title={t.title(showTooth(seal.tooth), seal.chartNumber)}
      onClose={onClose}
      closeLabel={common.cancel}
    >
      <p>{t.text}</p>
      <form className="form" onSubmit={submit}>
        <Choice
          label={t.reason}
          options={reasons.map((value) => ({ value, label: t.reasons[value] }))}
          value={reason}
          onChoose={setReason}
        />
        <TextField
          label={t.note}
          hint={needsNote ? t.noteNeeded : undefined}
          value={note}
          required={needsNote}
          minLength={needsNote ? 3 : undefined}
          maxLength={2000}
          autoComplete="off"
          error={fieldError(change.error, "note")}
          onChange={(event) => setNote(event.target.value)}
        />
        <ProblemNote error={change.error} />
        <Button
          kind="main"
          type="submit"
          busy={change.isPending}
          disabled={reason === null || (needsNote && note.trim().length < 3)}
        >
          {t.button}
        </Button>
      </form>
    </Dialog>
  );
}

const reasons = ["moved-away", "tooth-lost", "bonded-elsewhere", "other"] as const;
