import { useState, type FormEvent, type ReactNode } from "react";
import type { AnswerOf } from "#contracts/operations";
import { useRefresh, useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { TextField } from "../ui/Field.tsx";
import { fieldError, ProblemNote } from "../ui/States.tsx";

export type Movement = AnswerOf<"getContainer">["movements"][number];

/** Undoes a movement by its mirror, with a reason; both stay in the story. */
export function UndoDialog({
  movement,
  onClose,
}: {
  movement: Movement;
  onClose: () => void;
}): ReactNode {
  const t = useTexts();
  const { undo } = t.shelf;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [note, setNote] = useState("");
  const reverse = useWrite("reverseMovement", () => {
    refresh("getContainer", "listContainers", "getToday", "traceStock", "getTray");
    announce({ text: undo.done });
    onClose();
  });
  function submit(event: FormEvent): void {
    event.preventDefault();
    reverse.mutate({ params: { movementId: movement.id }, body: { note: note.trim() } });
  }
  return (
    <Dialog title={undo.title} onClose={onClose} closeLabel={t.common.cancel}>
      <form className="form" onSubmit={submit}>
        <p>{undo.text(movement.from, movement.to)}</p>
        <TextField
          label={undo.reason}
          value={note}
          required
          minLength={3}
          maxLength={500}
          autoComplete="off"
          error={fieldError(reverse.error, "note")}
          onChange={(event) => setNote(event.target.value)}
        />
        <ProblemNote error={reverse.error} />
        <Button kind="main" type="submit" busy={reverse.isPending}>
          {undo.button}
        </Button>
      </form>
    </Dialog>
  );
}
