import { useQueryClient } from "@tanstack/react-query";
import { useState, type ReactNode } from "react";
import { keyOf, showAnswer, useRefresh, useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { TextArea } from "../ui/Field.tsx";
import { FindingNote, subjectOf, type FindingView } from "../ui/FindingNote.tsx";
import { ProblemNote } from "../ui/States.tsx";

interface OverrideDialogProps {
  trayId: string;
  finding: FindingView;
  onClose: () => void;
}

/** A dentist passes a stop, with a reason that stays for ever. */
export function OverrideDialog({ trayId, finding, onClose }: OverrideDialogProps): ReactNode {
  const t = useTexts();
  const announce = useAnnounce();
  const queries = useQueryClient();
  const refresh = useRefresh();
  const [reason, setReason] = useState("");
  const pass = useWrite("overrideFinding", (tray) => {
    showAnswer(queries, keyOf("getTray", { params: { trayId } }), tray);
    refresh("getToday", "listTrays", "getRecord");
    announce({ text: t.tray.override.done, tone: "look" });
    onClose();
  });
  return (
    <Dialog title={t.tray.override.title} onClose={onClose} closeLabel={t.common.cancel}>
      <FindingNote finding={finding} />
      <p>{t.tray.override.text}</p>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          const body = { code: finding.code, subject: subjectOf(finding), reason };
          pass.mutate({ params: { trayId }, body });
        }}
      >
        <TextArea
          label={t.tray.override.reason}
          hint={t.tray.override.reasonHint}
          value={reason}
          minLength={5}
          maxLength={2000}
          required
          onChange={(event) => setReason(event.target.value)}
        />
        <ProblemNote error={pass.error} />
        <Button
          kind="danger"
          type="submit"
          busy={pass.isPending}
          disabled={reason.trim().length < 5}
        >
          {t.tray.override.button}
        </Button>
      </form>
    </Dialog>
  );
}
