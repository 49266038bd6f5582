import { useRef, type ReactNode } from "react";
import {
  productKinds,
  provisionalKinds,
  solvents,
  toothModes,
  type ProvisionalKind,
  type Solvent,
} from "#domain";
import { getMessages } from "#texts";
import { ApiProblem } from "../api/problem.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { CheckField, Select, TextField } from "../ui/Field.tsx";
import {
  listFaults,
  listWrong,
  type FaultyPart,
  type NumberField,
  type StepDraft,
} from "./technique-draft.ts";

interface StepFieldsProps {
  step: StepDraft;
  index: number;
  isLast: boolean;
  /** Of the last try to save. */
  error: unknown;
  /** Whether what is wrong is told already. */
  tried: boolean;
  onChange: (part: Partial<StepDraft>) => void;
  onMove: (by: number) => void;
  onRemove: () => void;
}

/** One step of a technique: what, with which material, how long; the rest behind a tap. */
export function StepFields(props: StepFieldsProps): ReactNode {
  const { step, index, error, tried, onChange } = props;
  const { technique: t } = useTexts();
  const faults = useFaults(error, index);
  const hasMore = faults.size > 0 || tellsMore(step);
  const part = { step, faults, onChange };
  const number = { ...part, tried };
  return (
    <fieldset className="panel step-fields">
      <legend>{t.stepTitle(index + 1, step.name)}</legend>
      <StepActs {...props} />
      <Fault text={faults.get("step")} />
      <div className="step-times">
        <TextField
          label={t.stepName}
          value={step.name}
          maxLength={80}
          required
          error={faults.get("name")}
          onChange={({ target }) => onChange({ name: target.value })}
        />
        <NumberInput {...number} field="applicationSeconds" label={t.application} />
        <NumberInput {...number} field="airDrySeconds" label={t.airDry} />
        <NumberInput {...number} field="cureSeconds" label={t.cure} />
      </div>
      <MaterialChoice {...part} />
      <CheckField
        label={t.required}
        checked={step.required}
        onChange={({ target }) => onChange({ required: target.checked })}
      />
      <details open={hasMore}>
        <summary className="link">{t.more}</summary>
        <SolventFields {...part} />
        <div className="step-times">
          <NumberInput {...number} field="lightDistance" label={t.lightDistance} />
          <NumberInput {...number} field="minThickness" label={t.minThickness} />
          <NumberInput {...number} field="maxThickness" label={t.maxThickness} />
          <NumberInput {...number} field="minFiller" label={t.minFiller} />
          <NumberInput {...number} field="minModulus" label={t.minModulus} />
        </div>
        <ConditionFields {...part} />
      </details>
    </fieldset>
  );
}

/** Whether a step says something that stands behind the tap. */
function tellsMore(step: StepDraft): boolean {
  const { solventNeeded, solventsAllowed, modes, provisional, undercut, etchesDentin } = step;
  const texts = [step.lightDistance, step.minThickness, step.minFiller, step.minModulus];
  return (
    etchesDentin ||
    solventNeeded !== "" ||
    solventsAllowed.length + modes.length > 0 ||
    provisional !== "" ||
    undercut !== "any" ||
    texts.some((text) => text !== "")
  );
}

type Faults = ReadonlyMap<FaultyPart, string>;

/** What the server found wrong in this step, in words. */
function useFaults(error: unknown, index: number): Faults {
  const { faults } = useTexts().technique;
  if (!(error instanceof ApiProblem)) return new Map();
  const said = [...listFaults(error.errors, index)];
  return new Map(said.map(([part, fault]) => [part, faults[fault] ?? fault]));
}

function Fault({ text }: { text: string | undefined }): ReactNode {
  return text === undefined ? null : (
    <p className="field-error" role="alert">
      {text}
    </p>
  );
}

function StepActs({ step, index, isLast, onMove, onRemove }: StepFieldsProps): ReactNode {
  const { technique: t } = useTexts();
  const announce = useAnnounce();
  const row = useRef<HTMLDivElement>(null);
  const move = (by: number, { currentTarget: button }: { currentTarget: HTMLButtonElement }) => {
    onMove(by);
    announce({ text: t.moved(step.name, index + 1 + by) });
    // What is moved in the page loses the focus; at either end the other way is left.
    requestAnimationFrame(() => {
      const left = row.current?.querySelector<HTMLButtonElement>("button:enabled");
      (button.disabled ? left : button)?.focus();
    });
  };
  return (
    <div className="actions" ref={row}>
      <Button disabled={index === 0} onClick={(event) => move(-1, event)}>
        {t.up}
      </Button>
      <Button disabled={isLast} onClick={(event) => move(1, event)}>
        {t.down}
      </Button>
      <Button onClick={onRemove}>{t.remove}</Button>
    </div>
  );
}

interface StepPartProps extends Pick<StepFieldsProps, "step" | "onChange"> {
  faults: Faults;
}

interface NumberInputProps extends StepPartProps {
  field: NumberField;
  label: string;
  tried: boolean;
}

function NumberInput(props: NumberInputProps): ReactNode {
  const { step, field, label, tried, faults, onChange } = props;
  const { technique: t } = useTexts();
  const isWrong = tried && listWrong(step).includes(field);
  return (
    <TextField
      label={label}
      inputMode="decimal"
      value={step[field]}
      error={isWrong ? t.wrongNumber : faults.get(field)}
      onChange={({ target }) => onChange({ [field]: target.value })}
    />
  );
}

const toggle = <T,>(chosen: readonly T[], one: T): readonly T[] =>
  chosen.includes(one) ? chosen.filter((other) => other !== one) : [...chosen, one];

function MaterialChoice({ step, faults, onChange }: StepPartProps): ReactNode {
  const { technique: t } = useTexts();
  const { language } = useFormats();
  const { productKinds: names } = getMessages(language);
  return (
    <fieldset className="checks-of">
      <legend>{t.accepts}</legend>
      <Fault text={faults.get("accepts")} />
      {productKinds.map((kind) => (
        <CheckField
          key={kind}
          label={names[kind]}
          checked={step.accepts.includes(kind)}
          onChange={() => onChange({ accepts: toggle(step.accepts, kind) })}
        />
      ))}
    </fieldset>
  );
}

function SolventFields({ step, faults, onChange }: StepPartProps): ReactNode {
  const { technique: t } = useTexts();
  const { language } = useFormats();
  const { solvents: names } = getMessages(language);
  return (
    <>
      <CheckField
        label={t.etchesDentin}
        checked={step.etchesDentin}
        onChange={({ target }) => onChange({ etchesDentin: target.checked })}
      />
      <Fault text={faults.get("etchesDentin")} />
      <Select
        label={t.solventNeeded}
        value={step.solventNeeded}
        error={faults.get("solventNeeded")}
        onChange={({ target }) => onChange({ solventNeeded: target.value as Solvent | "" })}
      >
        <option value="">{t.anySolvent}</option>
        {solvents.map((solvent) => (
          <option key={solvent} value={solvent}>
            {names[solvent]}
          </option>
        ))}
      </Select>
      <fieldset className="checks-of">
        <legend>{t.solventsAllowed}</legend>
        <Fault text={faults.get("solventsAllowed")} />
        {solvents.map((solvent) => (
          <CheckField
            key={solvent}
            label={names[solvent]}
            checked={step.solventsAllowed.includes(solvent)}
            onChange={() => onChange({ solventsAllowed: toggle(step.solventsAllowed, solvent) })}
          />
        ))}
      </fieldset>
    </>
  );
}

const undercuts = ["any", "yes", "no"] as const;

function ConditionFields({ step, faults, onChange }: StepPartProps): ReactNode {
  const { technique: t, chairside, tray } = useTexts();
  return (
    <>
      <fieldset className="checks-of">
        <legend>{t.modes}</legend>
        <Fault text={faults.get("modes")} />
        {toothModes.map((mode) => (
          <CheckField
            key={mode}
            label={chairside.modes[mode]}
            checked={step.modes.includes(mode)}
            onChange={() => onChange({ modes: toggle(step.modes, mode) })}
          />
        ))}
      </fieldset>
      <div className="pair">
        <Select
          label={t.provisional}
          value={step.provisional}
          onChange={({ target }) => onChange({ provisional: target.value as ProvisionalKind | "" })}
        >
          <option value="">{t.anyProvisional}</option>
          {provisionalKinds.map((kind) => (
            <option key={kind} value={kind}>
              {tray.plan.provisionals[kind]}
            </option>
          ))}
        </Select>
        <Select
          label={t.undercut}
          value={step.undercut}
          onChange={({ target }) => onChange({ undercut: target.value as StepDraft["undercut"] })}
        >
          {undercuts.map((one) => (
            <option key={one} value={one}>
              {t.undercuts[one]}
            </option>
          ))}
        </Select>
      </div>
    </>
  );
}
