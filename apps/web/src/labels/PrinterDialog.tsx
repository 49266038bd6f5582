import { useState, type FormEvent, type ReactNode } from "react";
import type { AnswerOf } from "#contracts/operations";
import { useRefresh, useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { Choice, TextField } from "../ui/Field.tsx";
import { fieldError, ProblemNote } from "../ui/States.tsx";
import { LengthField } from "./LengthField.tsx";
import { readLength, showLength, type LengthUnit } from "./lengths.ts";
import { dotsChoices, type Dots } from "./remembered-choices.ts";
import { useUnitChange } from "./useUnitChange.ts";

type Printer = AnswerOf<"listPrinters">["printers"][number];

interface Draft {
  name: string;
  host: string;
  port: string;
  dotsPerInch: Dots;
  unit: LengthUnit;
  /** As typed, in the unit. */
  width: string;
  height: string;
}

// Two inches by one: the label most such printers are sold with (common practice, no source).
const usual = { name: "", host: "", port: 9100, dotsPerInch: "203" as Dots };
const usualLabel = { labelWidthUm: 50_800, labelHeightUm: 25_400 };

interface PrinterDialogProps {
  /** `null` for one that is not known yet. */
  printer: Printer | null;
  onClose: () => void;
}

/** A label printer: where it is in the network, and the label that is in it. */
export function PrinterDialog({ printer, onClose }: PrinterDialogProps): ReactNode {
  const { common, labels } = useTexts();
  const { printers: t } = labels;
  const { language } = useFormats();
  const [draft, setDraft] = useState((): Draft => {
    const { name, host, port, dotsPerInch } = printer ?? usual;
    const { labelWidthUm, labelHeightUm } = printer ?? usualLabel;
    const width = showLength(labelWidthUm, "mm", language);
    const height = showLength(labelHeightUm, "mm", language);
    return { name, host, port: String(port), dotsPerInch, unit: "mm", width, height };
  });
  const [tried, setTried] = useState(false);
  const { error, busy, save } = useSave(printer?.id ?? null, onClose);
  function submit(event: FormEvent): void {
    event.preventDefault();
    setTried(true);
    save(draft);
  }
  return (
    <Dialog
      title={printer === null ? t.add : t.changeOf(printer.name)}
      onClose={onClose}
      closeLabel={common.cancel}
    >
      <form className="form" onSubmit={submit}>
        <AddressFields {...{ draft, setDraft, error }} />
        <LabelFields {...{ draft, setDraft, tried }} />
        <ProblemNote error={error} />
        <Button kind="main" type="submit" busy={busy}>
          {t.save}
        </Button>
      </form>
    </Dialog>
  );
}

/** A length that a label can have; `null` for any other. */
function readSide(text: string, unit: LengthUnit): number | null {
  const um = readLength(text, unit);
  return um !== null && um >= 1_000 && um <= 1_000_000 ? um : null;
}

function useSave(printerId: string | null, onClose: () => void) {
  const { printers: t } = useTexts().labels;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const onSaved = ({ name }: { name: string }) => {
    refresh("listPrinters");
    announce({ text: t.saved(name) });
    onClose();
  };
  const add = useWrite("addPrinter", onSaved);
  const change = useWrite("changePrinter", onSaved);
  const { error, isPending } = printerId === null ? add : change;
  return {
    error,
    busy: isPending,
    save: ({ name, host, port, dotsPerInch, unit, width, height }: Draft) => {
      const labelWidthUm = readSide(width, unit);
      const labelHeightUm = readSide(height, unit);
      if (labelWidthUm === null || labelHeightUm === null) return;
      const told = { name: name.trim(), host: host.trim(), port: Number(port), dotsPerInch };
      const body = { ...told, labelWidthUm, labelHeightUm };
      if (printerId === null) add.mutate({ body });
      else change.mutate({ params: { printerId }, body });
    },
  };
}

interface FieldsProps {
  draft: Draft;
  setDraft: (draft: Draft) => void;
}

function AddressFields({ draft, setDraft, error }: FieldsProps & { error: unknown }): ReactNode {
  const { printers: t } = useTexts().labels;
  const field = (name: "name" | "host" | "port") => ({
    value: draft[name],
    required: true,
    autoComplete: "off",
    error: fieldError(error, name),
    onChange: (event: { target: { value: string } }) =>
      setDraft({ ...draft, [name]: event.target.value }),
  });
  return (
    <>
      <TextField label={t.name} hint={t.nameHint} maxLength={100} {...field("name")} />
      <TextField
        label={t.host}
        hint={t.hostHint}
        maxLength={254}
        autoCapitalize="off"
        spellCheck={false}
        {...field("host")}
      />
      <TextField
        label={t.port}
        hint={t.portHint}
        type="number"
        min={1}
        max={65_535}
        {...field("port")}
      />
    </>
  );
}

function LabelFields({ draft, setDraft, tried }: FieldsProps & { tried: boolean }): ReactNode {
  const { printers: t, sheets } = useTexts().labels;
  const inOther = useUnitChange();
  const { unit, width, height } = draft;
  const side = (name: "width" | "height") => ({
    unit,
    value: draft[name],
    error: tried && readSide(draft[name], unit) === null ? t.wrongLength : undefined,
    onChange: (text: string) => setDraft({ ...draft, [name]: text }),
  });
  return (
    <>
      <Choice<Dots>
        label={t.dotsLabel}
        value={draft.dotsPerInch}
        options={dotsChoices.map((value) => ({ value, label: value }))}
        onChoose={(dotsPerInch) => setDraft({ ...draft, dotsPerInch })}
      />
      <Choice<LengthUnit>
        label={t.unit}
        value={unit}
        options={(["mm", "in"] as const).map((value) => ({ value, label: sheets.units[value] }))}
        onChoose={(next) =>
          setDraft({ ...draft, unit: next, ...inOther({ width, height }, unit, next) })
        }
      />
      <div className="beside">
        <LengthField label={t.width} {...side("width")} />
        <LengthField label={t.height} {...side("height")} />
      </div>
    </>
  );
}
