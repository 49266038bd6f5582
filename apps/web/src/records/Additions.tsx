import { useState, type ReactNode } from "react";
import { deviations, showContainerCode } from "#domain";
import { getMessages, sayEvent } from "#texts";
import type { AnswerOf } from "#contracts/operations";
import { call } from "../api/client.ts";
import { useRead } from "../api/queries.ts";
import { ScanEntry } from "../scanner/ScanEntry.tsx";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { textsOf, type Scan } from "../scanner/scan.ts";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Select, TextArea, TextField } from "../ui/Field.tsx";
import { useSayError } from "../ui/States.tsx";
import { CureInputs } from "./CureInputs.tsx";
import {
  readEntry,
  type AddedKind,
  type Addition,
  type AmendmentEntry,
  type EntryFields,
} from "./additions.ts";

type RecordView = AnswerOf<"getRecord">;

interface AdditionsProps {
  record: RecordView;
  added: readonly Addition[];
  onChange: (added: readonly Addition[]) => void;
}

/** What an amendment adds, entry by entry. */
export function Additions({ record, added, onChange }: AdditionsProps): ReactNode {
  const { amend: t } = useTexts();
  return (
    <section className="panel form">
      <h2>{t.add}</h2>
      {added.length === 0 ? <p className="hint">{t.nothingAdded}</p> : null}
      <ul className="amend-added">
        {added.map((one) => (
          <li key={JSON.stringify(one.entry)}>
            <span>{one.name}</span>
            <Button onClick={() => onChange(added.filter((other) => other !== one))}>
              {t.removeIt}
            </Button>
          </li>
        ))}
      </ul>
      <AddEntry record={record} onAdd={(one) => onChange([...added, one])} />
    </section>
  );
}

const kinds = ["note", "deviation", "thickness", "cure", "used", "not-scanned"] as const;
const nothing: EntryFields = {
  kind: "note",
  stepKey: "",
  text: "",
  what: "other",
  millimetres: "",
  container: null,
  productId: "",
  seconds: "",
  lightId: "",
  mode: "",
  distanceTenthMm: 0,
};

/** Kinds whose words are asked for. */
const withText = new Set<AddedKind>(["note", "deviation", "not-scanned"]);

interface AddEntryProps {
  record: RecordView;
  onAdd: (one: Addition) => void;
}

function AddEntry({ record, onAdd }: AddEntryProps): ReactNode {
  const { amend: t } = useTexts();
  const [fields, setFields] = useState<EntryFields>(nothing);
  const nameEntry = useNameEntry(record, fields);
  const set = (change: Partial<EntryFields>) => setFields({ ...fields, ...change });
  const findContainer = useContainerOfScan((container) => set({ kind: "used", container }));
  useScanTarget(findContainer, t.scanTarget);
  const entry = readEntry(fields);
  return (
    <div className="form">
      <Select
        label={t.addKind}
        value={fields.kind}
        onChange={({ target }) => set({ kind: target.value as AddedKind })}
      >
        {kinds.map((kind) => (
          <option key={kind} value={kind}>
            {t.addKinds[kind]}
          </option>
        ))}
      </Select>
      {fields.kind === "note" ? null : (
        <StepSelect
          record={record}
          value={fields.stepKey}
          onChange={(stepKey) => set({ stepKey })}
        />
      )}
      <EntryInputs {...{ record, fields, set }} />
      <Button
        disabled={entry === null}
        onClick={() => {
          if (entry === null) return;
          onAdd({ entry, name: nameEntry(entry) });
          setFields({ ...nothing, kind: fields.kind, stepKey: fields.stepKey });
        }}
      >
        {t.addIt}
      </Button>
    </div>
  );
}

interface StepSelectProps {
  record: RecordView;
  value: string;
  onChange: (stepKey: string) => void;
}

function StepSelect({ record, value, onChange }: StepSelectProps): ReactNode {
  const { amend: t, common } = useTexts();
  return (
    <Select label={t.step} value={value} onChange={({ target }) => onChange(target.value)}>
      <option value="">{common.choose}</option>
      {record.steps.map(({ key, name }) => (
        <option key={key} value={key}>
          {name}
        </option>
      ))}
    </Select>
  );
}

interface EntryInputsProps {
  record: RecordView;
  fields: EntryFields;
  set: (change: Partial<EntryFields>) => void;
}

/** The fields that the chosen kind of entry asks for. */
function EntryInputs({ record, fields, set }: EntryInputsProps): ReactNode {
  const { amend: t } = useTexts();
  const { language } = useFormats();
  const { kind } = fields;
  const textLabel = kind === "not-scanned" ? t.notScannedReason : t.text;
  return (
    <>
      {kind === "deviation" ? (
        <Select
          label={t.what}
          value={fields.what}
          onChange={({ target }) => set({ what: target.value as EntryFields["what"] })}
        >
          {deviations.map((what) => (
            <option key={what} value={what}>
              {getMessages(language).recordEvents.deviations[what]}
            </option>
          ))}
        </Select>
      ) : null}
      {kind === "thickness" ? (
        <TextField
          label={t.tenths}
          inputMode="decimal"
          value={fields.millimetres}
          onChange={({ target }) => set({ millimetres: target.value })}
        />
      ) : null}
      {kind === "cure" ? <CureInputs {...{ fields, set }} /> : null}
      {kind === "not-scanned" ? <ProductSelect {...{ record, fields, set }} /> : null}
      {kind === "used" ? (
        <>
          <p role="status">{fields.container?.name ?? t.scanFirst}</p>
          <ScanEntry withCamera />
        </>
      ) : null}
      {withText.has(kind) ? (
        <TextArea
          label={textLabel}
          value={fields.text}
          maxLength={2000}
          onChange={({ target }) => set({ text: target.value })}
        />
      ) : null}
    </>
  );
}

function ProductSelect({ record, fields, set }: EntryInputsProps): ReactNode {
  const { amend: t, common } = useTexts();
  const products = useRead("listProducts", {}, { staleMs: 300_000 }).data?.products ?? [];
  const accepts = record.technique.steps.find(({ key }) => key === fields.stepKey)?.accepts ?? [];
  return (
    <Select
      label={t.product}
      value={fields.productId}
      onChange={({ target }) => set({ productId: target.value })}
    >
      <option value="">{common.choose}</option>
      {products
        .filter(({ kind }) => accepts.includes(kind))
        .map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
    </Select>
  );
}

/** What an entry is called in the list, in the words of the record itself. */
function useNameEntry(record: RecordView, fields: EntryFields): (entry: AmendmentEntry) => string {
  const { language } = useFormats();
  const products = useRead("listProducts", {}, { staleMs: 300_000 }).data?.products ?? [];
  const lights = useRead("listLights", {}, { staleMs: 60_000 }).data?.lights ?? [];
  const { chairside } = useTexts();
  return (entry) => {
    const { kind, ...facts } = entry;
    const { stepKey } = { stepKey: "", ...entry };
    const step = record.steps.find(({ key }) => key === stepKey)?.name ?? "";
    if (kind === "used") return `${step}: ${fields.container?.name ?? ""}`;
    const { title, details } = sayEvent(language, { kind, facts }, step);
    if (entry.kind === "cure") {
      // What it gave is reckoned when it is signed.
      const light = lights.find(({ id }) => id === entry.lightId)?.name ?? chairside.otherLight;
      return [title, light, entry.mode ?? ""].filter((part) => part !== "").join(" · ");
    }
    const product = products.find(({ id }) => "productId" in entry && id === entry.productId);
    return [title, product?.name ?? "", ...details].filter((part) => part !== "").join(" · ");
  };
}

/** The container that a scan means: that of a code, or the only one of a label's lot. */
function useContainerOfScan(
  onFound: (container: NonNullable<EntryFields["container"]>) => void,
): (scan: Scan) => void {
  const { amend: t, shelf } = useTexts();
  const announce = useAnnounce();
  const sayError = useSayError();
  const say = (text: string) => {
    playSound("look");
    announce({ text, tone: "look" });
  };
  return (scan) => {
    call("readScan", { body: textsOf(scan) }).then(
      ({ containers }) => {
        const [one, ...others] = containers;
        if (one === undefined) return say(shelf.notFound);
        if (others.length > 0) return say(shelf.several(containers.length));
        playSound("taken");
        const name = t.used(one.product.name, showContainerCode(one.code), one.lot);
        return onFound({ id: one.id, name });
      },
      (error: unknown) => say(sayError(error)),
    );
  };
}
