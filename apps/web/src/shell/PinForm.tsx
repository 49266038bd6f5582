import type { FormEvent, ReactNode } from "react";
import { useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { TextField } from "../ui/Field.tsx";
import { readText } from "../ui/form-text.ts";
import { fieldError, ProblemNote } from "../ui/States.tsx";

/** Sets one's own PIN, with the password as proof. */
export function PinForm({ onSaved }: { onSaved: () => void }): ReactNode {
  const t = useTexts();
  const announce = useAnnounce();
  const save = useWrite("setPin", () => {
    announce({ text: t.menu.pinSaved });
    onSaved();
  });
  function submit(event: FormEvent<HTMLFormElement>): void {
    event.preventDefault();
    const form = event.currentTarget;
    save.mutate({ body: { password: readText(form, "password"), pin: readText(form, "pin") } });
  }
  return (
    <form className="form" onSubmit={submit}>
      <TextField
        label={t.menu.password}
        name="password"
        type="password"
        autoComplete="current-password"
        required
      />
      <TextField
        label={t.menu.pin}
        hint={t.menu.pinHint}
        error={fieldError(save.error, "pin")}
        name="pin"
        type="password"
        inputMode="numeric"
        pattern="[0-9]{4,8}"
        autoComplete="off"
        required
      />
      <ProblemNote error={save.error} />
      <Button kind="main" type="submit" busy={save.isPending}>
        {t.common.save}
      </Button>
    </form>
  );
}
