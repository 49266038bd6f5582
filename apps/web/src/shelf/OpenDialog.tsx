import { useState, type FormEvent, type ReactNode } from "react";
import { showContainerCode } from "#domain";
import { useRefresh, useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import type { Container } from "../ui/ContainerWords.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { TextField } from "../ui/Field.tsx";
import { fieldError, ProblemNote } from "../ui/States.tsx";

/** Opens a container: today, or on the earlier day somebody forgot to tell. */
export function OpenDialog({
  container,
  onClose,
}: {
  container: Container;
  onClose: () => void;
}): ReactNode {
  const t = useTexts();
  const { opening } = t.shelf;
  const { today } = useFormats();
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [on, setOn] = useState(today);
  const open = useWrite("openContainer", ({ code }) => {
    refresh("getContainer", "listContainers", "getToday", "getTray");
    announce({ text: opening.done(showContainerCode(code)) });
    onClose();
  });
  function submit(event: FormEvent): void {
    event.preventDefault();
    open.mutate({ params: { containerId: container.id }, body: on === today() ? {} : { on } });
  }
  return (
    <Dialog
      title={opening.title(container.product.name)}
      onClose={onClose}
      closeLabel={t.common.cancel}
    >
      <form className="form" onSubmit={submit}>
        <p>{opening.text}</p>
        <TextField
          label={opening.on}
          type="date"
          value={on}
          max={today()}
          required
          error={fieldError(open.error, "on")}
          onChange={(event) => setOn(event.target.value)}
        />
        <ProblemNote error={open.error} />
        <Button kind="main" type="submit" busy={open.isPending}>
          {opening.button}
        </Button>
      </form>
    </Dialog>
  );
}
