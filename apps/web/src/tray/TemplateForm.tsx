import { useState, type ReactNode } from "react";
import type { AnswerOf, BodyOf } from "#contracts/operations";
import { useRead } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { CheckField, Select, TextField } from "../ui/Field.tsx";
import { ProblemNote, QueryView } from "../ui/States.tsx";
import { ToothChoices } from "./TeethFields.tsx";
import { bodyOfDraft, toggleProduct, type TemplateDraft } from "./template-draft.ts";
import type { VisitChoices } from "./VisitForm.tsx";
import { modesOf, type Technique } from "./visit-plan.ts";
import "./trays.css";

interface TemplateFormProps {
  choices: VisitChoices;
  start: TemplateDraft;
  busy: boolean;
  error: unknown;
  onSave: (body: BodyOf<"addTemplate">) => void;
}

/** A template: its name, technique and room, what is usual of a tooth, and products by step. */
export function TemplateForm(props: TemplateFormProps): ReactNode {
  const { choices, start, busy, error, onSave } = props;
  const { templates: t, common } = useTexts();
  const [draft, setDraft] = useState(start);
  const change = (part: Partial<TemplateDraft>) => setDraft((before) => ({ ...before, ...part }));
  const technique = choices.techniques.find(({ id }) => id === draft.techniqueId);
  return (
    <form
      className="plan"
      onSubmit={(event) => {
        event.preventDefault();
        onSave(bodyOfDraft(draft, technique));
      }}
    >
      <div className="form">
        <TextField
          label={t.name}
          value={draft.name}
          maxLength={100}
          required
          autoComplete="off"
          onChange={({ target }) => change({ name: target.value })}
        />
        <Select
          label={t.technique}
          value={draft.techniqueId}
          required
          onChange={({ target }) => change({ techniqueId: target.value })}
        >
          {technique === undefined ? <option value="">{t.outOfUse}</option> : null}
          {choices.techniques.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </Select>
        <Select
          label={t.room}
          value={draft.locationId}
          onChange={({ target }) => change({ locationId: target.value })}
        >
          {choices.rooms.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </Select>
        <UsualTooth {...{ draft, technique, change }} />
        <ProblemNote error={error} />
        <Button kind="main" type="submit" busy={busy}>
          {common.save}
        </Button>
      </div>
      <StepProducts {...{ draft, technique, change }} />
    </form>
  );
}

interface PartProps {
  draft: TemplateDraft;
  technique: Technique | undefined;
  change: (part: Partial<TemplateDraft>) => void;
}

function UsualTooth({ draft, technique, change }: PartProps): ReactNode {
  const t = useTexts();
  const modes = modesOf(technique);
  const isSealing = technique?.visit === "sealing";
  if (modes.length === 0 && !isSealing) return null;
  return (
    <fieldset className="tooth-fields">
      <legend>{t.templates.tooth}</legend>
      <ToothChoices
        {...{ modes, isSealing }}
        told={{ mode: draft.mode ?? modes[0] ?? null, provisional: draft.provisional }}
        onChange={change}
      />
      {isSealing ? (
        <CheckField
          label={t.tray.plan.undercut}
          checked={draft.undercut}
          onChange={({ target }) => change({ undercut: target.checked })}
        />
      ) : null}
    </fieldset>
  );
}

type Product = AnswerOf<"listProducts">["products"][number];

function StepProducts({ draft, technique, change }: PartProps): ReactNode {
  const { templates: t } = useTexts();
  const products = useRead("listProducts", {}, { staleMs: 60_000 });
  const steps = technique?.steps.filter(({ accepts }) => accepts.length > 0) ?? [];
  return (
    <section className="form">
      <h2>{t.productsTitle}</h2>
      <p className="hint">{t.productsHint}</p>
      <QueryView query={products}>
        {(found) =>
          steps.map((step) => (
            <StepFields
              key={step.key}
              name={step.name}
              products={found.products.filter(({ kind }) => step.accepts.includes(kind))}
              chosen={draft.products[step.key] ?? []}
              onToggle={(id) => change({ products: toggleProduct(draft, step.key, id) })}
            />
          ))
        }
      </QueryView>
    </section>
  );
}

interface StepFieldsProps {
  name: string;
  products: readonly Product[];
  chosen: readonly string[];
  onToggle: (productId: string) => void;
}

function StepFields({ name, products, chosen, onToggle }: StepFieldsProps): ReactNode {
  const { templates: t } = useTexts();
  return (
    <fieldset className="tooth-fields">
      <legend>{name}</legend>
      {products.length === 0 ? <p className="hint">{t.noProduct}</p> : null}
      {products.map((product) => (
        <CheckField
          key={product.id}
          label={
            chosen.length > 1 && chosen.includes(product.id)
              ? t.first(product.name, chosen.indexOf(product.id) + 1)
              : product.name
          }
          checked={chosen.includes(product.id)}
          onChange={() => onToggle(product.id)}
        />
      ))}
    </fieldset>
  );
}
