import type { WithdrawalView } from "#contracts/withdrawals";
import { useQueryClient } from "@tanstack/react-query";
import { useState, type FormEvent, type ReactNode } from "react";
import { keyOf, useRefresh, useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { TextArea } from "../ui/Field.tsx";
import { fieldError, ProblemNote } from "../ui/States.tsx";
import { countPatients, countTeeth, sumBalances } from "./sums.ts";

/** The figures of a case in a sentence, to begin its summary with. */
function useFigures({ trace }: WithdrawalView): string {
  const { case: texts } = useTexts().withdrawal;
  const teeth = trace.flatMap((lot) => lot.teeth);
  const counts = { ...countTeeth(teeth), patients: countPatients(teeth) };
  return `${texts.figures(sumBalances(trace))} ${texts.figuresTeeth(counts)}`;
}

/** Closes a case with its summary; asks again in words where some of it is still on a shelf. */
export function CloseDialog({
  one,
  onClose,
}: {
  one: WithdrawalView;
  onClose: () => void;
}): ReactNode {
  const t = useTexts();
  const { case: texts } = t.withdrawal;
  const queries = useQueryClient();
  const refresh = useRefresh();
  const announce = useAnnounce();
  const figures = useFigures(one);
  const [summary, setSummary] = useState(figures);
  const input = { params: { withdrawalId: one.id } };
  const close = useWrite("closeWithdrawal", (closed) => {
    queries.setQueryData(keyOf("getWithdrawal", input), closed);
    refresh("listWithdrawals", "getToday", "listContainers", "traceStock", "getTray");
    announce({ text: texts.closedDone });
    onClose();
  });
  const out = sumBalances(one.trace).onHand;
  function submit(event: FormEvent): void {
    event.preventDefault();
    close.mutate({ ...input, body: { summary: summary.trim() } });
  }
  return (
    <Dialog title={texts.closeTitle(one.reference)} onClose={onClose} closeLabel={t.common.cancel}>
      <form className="form" onSubmit={submit}>
        {out === 0 ? null : <p className="field-error">{texts.stillOutWarning(out)}</p>}
        <p>{texts.closeText}</p>
        <TextArea
          label={texts.summary}
          value={summary}
          rows={6}
          required
          minLength={3}
          maxLength={5000}
          error={fieldError(close.error, "summary")}
          onChange={(event) => setSummary(event.target.value)}
        />
        <ProblemNote error={close.error} />
        <Button kind="main" type="submit" busy={close.isPending}>
          {texts.closeButton}
        </Button>
      </form>
    </Dialog>
  );
}
