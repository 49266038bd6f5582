import type { WithdrawalView } from "#contracts/withdrawals";
import { useQueryClient } from "@tanstack/react-query";
import type { ReactNode } from "react";
import { keyOf, useRefresh, useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { ProblemNote } from "../ui/States.tsx";

interface SegregateDialogProps {
  one: WithdrawalView;
  count: number;
  onClose: () => void;
}

/** Moves all that a case covers into quarantine, after naming what it is. */
export function SegregateDialog({ one, count, onClose }: SegregateDialogProps): ReactNode {
  const t = useTexts();
  const { case: texts } = t.withdrawal;
  const queries = useQueryClient();
  const refresh = useRefresh();
  const announce = useAnnounce();
  const input = { params: { withdrawalId: one.id } };
  const segregate = useWrite("segregate", ({ moved, withdrawal }) => {
    queries.setQueryData(keyOf("getWithdrawal", input), withdrawal);
    refresh("listContainers", "getContainer", "getToday", "listWithdrawals", "getTray");
    announce({ text: texts.segregated(moved) });
    onClose();
  });
  const nameOf = (lot: WithdrawalView["trace"][number]) =>
    t.withdrawal.lotTitle(lot.product.name, lot.lot);
  return (
    <Dialog
      title={texts.segregateTitle}
      onClose={onClose}
      closeLabel={t.common.cancel}
      actions={
        <Button kind="main" busy={segregate.isPending} onClick={() => segregate.mutate(input)}>
          {texts.segregate(count)}
        </Button>
      }
    >
      <p>{texts.segregateText(count)}</p>
      <ul className="segregate-list">
        {one.trace.flatMap((lot) =>
          lot.here
            .filter(({ location }) => location.kind !== "quarantine")
            .map(({ location, quantity }) => (
              <li key={`${lot.lotId} ${location.id}`}>
                <strong>{quantity}</strong> {nameOf(lot)} · {location.name}
              </li>
            )),
        )}
      </ul>
      <ProblemNote error={segregate.error} />
    </Dialog>
  );
}
