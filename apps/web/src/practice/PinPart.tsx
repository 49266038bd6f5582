import { useQueryClient } from "@tanstack/react-query";
import { useState, type ReactNode } from "react";
import { useSignedIn } from "../session/session.ts";
import { PinForm } from "../shell/PinForm.tsx";
import { useTexts } from "../texts/Texts.tsx";

/** One's own PIN. */
export function PinPart(): ReactNode {
  const { pin: t } = useTexts().practice;
  const { person } = useSignedIn();
  const queries = useQueryClient();
  // What was typed is gone once it is saved.
  const [count, setCount] = useState(0);
  return (
    <section className="panel">
      <p>{t.lead}</p>
      <p>{person.hasPin ? t.has : t.none}</p>
      <PinForm
        key={count}
        onSaved={() => {
          setCount(count + 1);
          void queries.invalidateQueries({ queryKey: ["getSession"] });
        }}
      />
    </section>
  );
}
