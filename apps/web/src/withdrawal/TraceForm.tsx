import { useState, type FormEvent, type ReactNode } from "react";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Button, LinkButton } from "../ui/Button.tsx";
import { TextField } from "../ui/Field.tsx";
import type { Asked } from "./asked.ts";

interface TraceFormProps {
  asked: Asked;
  onAsk: (parts: Readonly<Record<"lot" | "identifier" | "container", string>>) => void;
}

/** What is asked of the books: a lot, a device identifier, a container, or a lot of a product. */
export function TraceForm({ asked, onAsk }: TraceFormProps): ReactNode {
  const { form: t } = useTexts().withdrawal;
  const [lot, setLot] = useState(asked.lot ?? "");
  const [identifier, setIdentifier] = useState(asked.identifier ?? "");
  const [container, setContainer] = useState(asked.container ?? "");
  const [saidNothing, setSaidNothing] = useState(false);
  function submit(event: FormEvent): void {
    event.preventDefault();
    const told = { lot: lot.trim(), identifier: identifier.trim(), container: container.trim() };
    const isNothing = told.lot === "" && told.identifier === "" && told.container === "";
    setSaidNothing(isNothing);
    if (!isNothing) onAsk(told);
  }
  const field = { className: "code", autoComplete: "off", spellCheck: false } as const;
  return (
    <search className="panel trace-form">
      <form onSubmit={submit}>
        <div className="beside">
          <TextField
            {...field}
            label={t.lot}
            hint={t.lotHint}
            value={lot}
            maxLength={40}
            onChange={(event) => setLot(event.target.value)}
          />
          <TextField
            {...field}
            label={t.identifier}
            hint={t.identifierHint}
            value={identifier}
            maxLength={60}
            onChange={(event) => setIdentifier(event.target.value)}
          />
          <TextField
            {...field}
            label={t.container}
            hint={t.containerHint}
            value={container}
            maxLength={20}
            onChange={(event) => setContainer(event.target.value)}
          />
        </div>
        <div className="actions">
          <Button kind="main" type="submit">
            {t.button}
          </Button>
          {Object.keys(asked).length === 0 ? null : (
            <LinkButton kind="quiet" to={paths.withdrawals()}>
              {t.again}
            </LinkButton>
          )}
        </div>
        {saidNothing ? (
          <p className="field-error" role="alert">
            {t.sayOne}
          </p>
        ) : null}
      </form>
    </search>
  );
}
