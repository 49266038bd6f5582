import { useState, type FormEvent, type ReactNode } from "react";
import { productKinds, strategies } from "#domain";
import { getMessages } from "#texts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { CheckField, Select, TextField } from "../ui/Field.tsx";
import { fieldError, ProblemNote } from "../ui/States.tsx";
import { ContentsField, SolventsField } from "./ChemistryFields.tsx";
import type { ProductInput } from "./facts.ts";
import { readProductForm } from "./product-input.ts";
import { SystemField } from "./SystemField.tsx";
import "./catalogue.css";

interface ProductFormProps {
  /** What the fields begin with. */
  start: Partial<ProductInput>;
  button: string;
  busy: boolean;
  error: unknown;
  onSave: (input: ProductInput) => void;
  onCancel?: () => void;
  /** What stands after the name and kind, such as identifiers. */
  afterIdentity?: ReactNode;
  /** What stands before the button, such as a notice. */
  children?: ReactNode;
}

/** All facts of a product, to be taken from its instructions for use; a native form. */
export function ProductForm(props: ProductFormProps): ReactNode {
  const t = useTexts();
  const { start, error } = props;
  const [systemId, setSystemId] = useState(start.systemId ?? "");
  function submit(event: FormEvent<HTMLFormElement>): void {
    event.preventDefault();
    props.onSave(readProductForm(new FormData(event.currentTarget), systemId));
  }
  return (
    <form className="product-form" onSubmit={submit}>
      <p className="hint">{t.catalogue.form.lead}</p>
      <IdentityFields {...{ start, error }} />
      {props.afterIdentity}
      <fieldset>
        <legend>{t.catalogue.form.chemistry}</legend>
        <SolventsField start={start.solvents ?? null} />
        <div className="beside">
          <StrategyField start={start} error={error} />
          <SystemField
            value={systemId}
            onChoose={setSystemId}
            error={fieldError(error, "systemId")}
          />
        </div>
        <ContentsField start={start.contents ?? []} />
        <CoatFields {...{ start, error }} />
      </fieldset>
      <TimeFields {...{ start, error }} />
      <KeepingFields {...{ start, error }} />
      {props.children}
      <ProblemNote error={error} />
      <div className="actions">
        <Button kind="main" type="submit" busy={props.busy}>
          {props.button}
        </Button>
        {props.onCancel ? (
          <Button kind="quiet" onClick={props.onCancel}>
            {t.common.cancel}
          </Button>
        ) : null}
      </div>
    </form>
  );
}

type FieldsProps = Pick<ProductFormProps, "start" | "error">;

function IdentityFields({ start, error }: FieldsProps): ReactNode {
  const t = useTexts();
  const { language } = useFormats();
  const { productKinds: kindNames } = getMessages(language);
  const { form, facts } = t.catalogue;
  return (
    <fieldset>
      <legend>{form.identity}</legend>
      <TextField
        label={facts.name}
        hint={form.nameHint}
        name="name"
        required
        maxLength={200}
        defaultValue={start.name}
        error={fieldError(error, "name")}
        autoComplete="off"
      />
      <div className="beside">
        <TextField
          label={facts.labeler}
          hint={form.labelerHint}
          name="labeler"
          maxLength={200}
          defaultValue={start.labeler}
          error={fieldError(error, "labeler")}
          autoComplete="off"
        />
        <Select
          label={facts.kind}
          name="kind"
          required
          defaultValue={start.kind ?? ""}
          error={fieldError(error, "kind")}
        >
          <option value="" disabled>
            {form.chooseKind}
          </option>
          {productKinds.map((kind) => (
            <option key={kind} value={kind}>
              {kindNames[kind]}
            </option>
          ))}
        </Select>
      </div>
    </fieldset>
  );
}

function StrategyField({ start, error }: FieldsProps): ReactNode {
  const t = useTexts();
  const { language } = useFormats();
  const { strategies: names } = getMessages(language);
  return (
    <Select
      label={t.catalogue.facts.strategy}
      name="strategy"
      defaultValue={start.strategy ?? ""}
      error={fieldError(error, "strategy")}
    >
      <option value="">{t.catalogue.form.strategyNone}</option>
      {strategies.map((one) => (
        <option key={one} value={one}>
          {names[one]}
        </option>
      ))}
    </Select>
  );
}

function CoatFields({ start, error }: FieldsProps): ReactNode {
  const { form } = useTexts().catalogue;
  return (
    <div className="beside">
      <NumberField
        name="fillerPercent"
        label={form.filler}
        range={{ min: 0, max: 100, step: "any" }}
        start={start.fillerPercent}
        error={error}
      />
      <NumberField
        name="modulusGpa"
        label={form.modulus}
        range={{ min: 0.1, max: 1000, step: "any" }}
        start={start.modulusGpa}
        error={error}
      />
    </div>
  );
}

function TimeFields({ start, error }: FieldsProps): ReactNode {
  const { form } = useTexts().catalogue;
  const seconds = ["applicationSeconds", "airDrySeconds", "cureSeconds"] as const;
  return (
    <fieldset>
      <legend>{form.times}</legend>
      <div className="beside">
        {seconds.map((name) => (
          <NumberField
            key={name}
            {...{ name, error }}
            label={form[name]}
            range={{ min: 0, max: 3600, step: 1 }}
            start={start[name]}
          />
        ))}
        <NumberField
          name="radiantExposureJCm2"
          label={form.radiantExposure}
          range={{ min: 0.1, max: 1000, step: "any" }}
          start={start.radiantExposureJCm2}
          error={error}
        />
        <NumberField
          name="dropLifeSeconds"
          label={form.dropLife}
          range={{ min: 1, max: 3600, step: 1 }}
          start={start.dropLifeSeconds}
          error={error}
        />
      </div>
    </fieldset>
  );
}

function KeepingFields({ start, error }: FieldsProps): ReactNode {
  const { form, facts } = useTexts().catalogue;
  const degrees = { min: -99, max: 99, step: "any" } as const;
  return (
    <fieldset>
      <legend>{form.keeping}</legend>
      <div className="beside">
        <NumberField
          name="inUseCount"
          errorAt="inUseLife/count"
          label={form.inUseCount}
          range={{ min: 1, max: 1200, step: 1 }}
          start={start.inUseLife?.count}
          error={error}
        />
        <Select
          label={form.inUseUnit}
          name="inUseUnit"
          defaultValue={start.inUseLife?.unit ?? "day"}
        >
          <option value="day">{form.unitDay}</option>
          <option value="month">{form.unitMonth}</option>
        </Select>
        <NumberField
          name="storageMinC"
          label={form.storageMin}
          range={degrees}
          start={start.storageMinC}
          error={error}
        />
        <NumberField
          name="storageMaxC"
          label={form.storageMax}
          range={degrees}
          start={start.storageMaxC}
          error={error}
        />
        <NumberField
          name="usesPerContainer"
          label={form.usesPerContainer}
          range={{ min: 1, max: 10_000, step: 1 }}
          start={start.usesPerContainer}
          error={error}
        />
        <NumberField
          name="warmUpMinutes"
          label={form.warmUp}
          range={{ min: 1, max: 1440, step: 1 }}
          start={start.warmUpMinutes}
          error={error}
        />
        <ExcursionField start={start} />
      </div>
      <CheckField
        label={form.singleUse}
        name="singleUse"
        defaultChecked={start.singleUse ?? false}
      />
      <TextField
        label={facts.ifuVersion}
        hint={form.ifuHint}
        name="ifuVersion"
        maxLength={200}
        defaultValue={start.ifuVersion}
        error={fieldError(error, "ifuVersion")}
        autoComplete="off"
      />
    </fieldset>
  );
}

function ExcursionField({ start }: Pick<FieldsProps, "start">): ReactNode {
  const { form } = useTexts().catalogue;
  const { levels } = getMessages(useFormats().language);
  return (
    <Select
      label={form.excursion}
      name="excursionLevel"
      defaultValue={start.excursionLevel ?? "caution"}
    >
      <option value="caution">{levels.caution}</option>
      <option value="stop">{levels.stop}</option>
    </Select>
  );
}

interface NumberFieldProps {
  name: string;
  label: string;
  range: { min: number; max: number; step: number | "any" };
  start: number | null | undefined;
  error: unknown;
  /** Where the contract has the field, where that is not its name. */
  errorAt?: string;
}

function NumberField({ name, label, range, start, error, errorAt }: NumberFieldProps): ReactNode {
  return (
    <TextField
      {...range}
      label={label}
      name={name}
      type="number"
      inputMode="decimal"
      defaultValue={start ?? ""}
      error={fieldError(error, errorAt ?? name)}
    />
  );
}
