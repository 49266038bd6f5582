import { useState, type ReactNode } from "react";
import { useLocation } from "wouter";
import { showContainerCode } from "#domain";
import { useRefresh, useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { CheckField } from "../ui/Field.tsx";
import { ProblemNote } from "../ui/States.tsx";
import type { Tray } from "./columns.ts";

/** Ends a tray: asks once, and which of its containers are empty now. */
export function ClearDialog({ tray, onClose }: { tray: Tray; onClose: () => void }): ReactNode {
  const t = useTexts();
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [, navigate] = useLocation();
  const [empty, setEmpty] = useState<ReadonlySet<string>>(new Set());
  const clear = useWrite("clearTray", () => {
    refresh("getTray", "listTrays", "getToday", "listContainers");
    announce({ text: t.tray.cleared });
    navigate(paths.today());
  });
  const containers = tray.items.flatMap(({ container }) => container ?? []);
  function mark(id: string, isEmpty: boolean): void {
    const next = new Set(empty);
    if (isEmpty) next.add(id);
    else next.delete(id);
    setEmpty(next);
  }
  return (
    <Dialog
      title={t.tray.clearTitle}
      onClose={onClose}
      closeLabel={t.common.cancel}
      actions={
        <Button
          kind="main"
          busy={clear.isPending}
          onClick={() =>
            clear.mutate({ params: { trayId: tray.id }, body: { usedUp: [...empty] } })
          }
        >
          {t.tray.clear}
        </Button>
      }
    >
      <p>{t.tray.clearText}</p>
      {containers.map(({ id, product, code }) => (
        <CheckField
          key={id}
          label={`${product.name} ${showContainerCode(code)}`}
          checked={empty.has(id)}
          onChange={(event) => mark(id, event.target.checked)}
        />
      ))}
      <ProblemNote error={clear.error} />
    </Dialog>
  );
}
