import { useState, type ReactNode } from "react";
import { describeTooth, showToothIn, toothNotations } from "#domain";
import { sayTooth } from "#texts";
import { useWrite } from "../api/queries.ts";
import { useHasRole, useSignedIn } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { Choice } from "../ui/Field.tsx";
import { ProblemNote } from "../ui/States.tsx";

const examples = ["16", "36", "55", "18S"];

/** How the practice writes teeth. */
export function TeethPart(): ReactNode {
  const t = useTexts();
  const { teeth: words } = t.practice;
  const { language } = useFormats();
  const { practice } = useSignedIn();
  const mayChange = useHasRole("dentist", "office", "owner");
  const [notation, choose] = useState(practice.toothNotation);
  // Every page shows teeth: each is drawn anew in the other notation.
  const save = useWrite("changeToothNotation", () => window.location.reload());
  return (
    <section className="panel">
      <p>{words.lead}</p>
      <Choice
        label={words.notation}
        options={toothNotations.map((value) => ({ value, label: t.notations[value] }))}
        value={notation}
        onChoose={choose}
      />
      <ul>
        {examples.map((fdi) => {
          const tooth = describeTooth(fdi);
          const name = tooth === null ? "" : sayTooth(language, tooth);
          return <li key={fdi}>{words.example(showToothIn(notation, fdi), name)}</li>;
        })}
      </ul>
      <p className="hint">{words.beside}</p>
      <ProblemNote error={save.error} />
      {mayChange ? (
        <div className="actions">
          <Button
            kind="main"
            busy={save.isPending}
            onClick={() => save.mutate({ body: { toothNotation: notation } })}
          >
            {t.common.save}
          </Button>
        </div>
      ) : (
        <p className="hint">{words.deciders}</p>
      )}
    </section>
  );
}
