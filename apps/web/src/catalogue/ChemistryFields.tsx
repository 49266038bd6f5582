import { useState, type ReactNode } from "react";
import { contents, solvents, type Content, type Solvent } from "#domain";
import { getMessages } from "#texts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { CheckField, Choice } from "../ui/Field.tsx";
import { solventsKnownOf, type SolventsKnown } from "./product-input.ts";

/** What is known of the solvents: that nothing is stated and that there are none are two things. */
export function SolventsField({ start }: { start: readonly Solvent[] | null }): ReactNode {
  const { form, facts } = useTexts().catalogue;
  const { language } = useFormats();
  const [known, setKnown] = useState<SolventsKnown>(() => solventsKnownOf(start));
  const names = getMessages(language).solvents;
  return (
    <div className="solvents-field">
      <input type="hidden" name="solventsKnown" value={known} />
      <Choice
        label={facts.solvents}
        value={known}
        options={[
          { value: "unknown", label: form.solventsUnknown },
          { value: "none", label: form.solventsNone },
          { value: "some", label: form.solventsSome },
        ]}
        onChoose={setKnown}
      />
      {known === "some" ? (
        <div className="checks" role="group" aria-label={facts.solvents}>
          {solvents.map((one) => (
            <CheckField
              key={one}
              label={names[one]}
              name="solvents"
              value={one}
              defaultChecked={start?.includes(one) ?? false}
            />
          ))}
        </div>
      ) : null}
    </div>
  );
}

/** Contents that matter for allergy. */
export function ContentsField({ start }: { start: readonly Content[] }): ReactNode {
  const { facts } = useTexts().catalogue;
  const { language } = useFormats();
  const names = getMessages(language).contents;
  return (
    <div className="contents-field" role="group" aria-label={facts.contents}>
      <span className="field-name">{facts.contents}</span>
      <div className="checks">
        {contents.map((one) => (
          <CheckField
            key={one}
            label={names[one]}
            name="contents"
            value={one}
            defaultChecked={start.includes(one)}
          />
        ))}
      </div>
    </div>
  );
}
