import { useState, type FormEvent, type ReactNode } from "react";
import type { SheetGeometry } from "#domain";
import { useRefresh, useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { TextField } from "../ui/Field.tsx";
import { fieldError, ProblemNote } from "../ui/States.tsx";
import { showLength } from "./lengths.ts";
import { draftOf, readDraft, type SheetDraft } from "./sheet-draft.ts";
import { measureFaults } from "./sheet-places.ts";
import { SheetFields } from "./SheetFields.tsx";
import { SheetPicture } from "./SheetPicture.tsx";

interface SheetDialogProps {
  /** The sheet that is corrected; without an id a new one begins with its measures. */
  from: SheetGeometry & { id: string | null; name: string };
  onClose: () => void;
}

/** The measures of a sheet beside its picture; what cannot be is said before it is saved. */
export function SheetDialog({ from, onClose }: SheetDialogProps): ReactNode {
  const { common, labels } = useTexts();
  const { sheets: t, printers } = labels;
  const { language } = useFormats();
  const [name, setName] = useState(from.name);
  const [draft, setDraft] = useState(() => draftOf(from, language));
  const [tried, setTried] = useState(false);
  const { shape, faulty } = readDraft(draft);
  const sayFaults = useSayFaults();
  const faults = shape === null ? [] : sayFaults(shape, draft.unit);
  const { error, busy, save } = useSave(from.id, onClose);
  function submit(event: FormEvent): void {
    event.preventDefault();
    setTried(true);
    if (shape !== null && faults.length === 0) save({ ...shape, name: name.trim() });
  }
  return (
    <Dialog
      title={from.id === null ? t.add : t.changeOf(from.name)}
      onClose={onClose}
      closeLabel={common.cancel}
      wide
    >
      <form className="sheet-form" noValidate onSubmit={submit}>
        <div className="form">
          <TextField
            label={t.name}
            hint={t.nameHint}
            value={name}
            maxLength={100}
            autoComplete="off"
            error={tried && name.trim() === "" ? t.nameMissing : fieldError(error, "name")}
            onChange={(event) => setName(event.target.value)}
          />
          <SheetFields {...{ draft, setDraft }} faulty={tried ? faulty : new Set()} />
        </div>
        <div className="sheet-result">
          {shape === null ? (
            <p className="hint">{t.notYet}</p>
          ) : (
            <SheetPicture shape={shape} label={t.picture(shape.columns, shape.rows)} />
          )}
          <div className="sheet-faults" role="status">
            {faults.map((fault) => (
              <p key={fault} className="field-error">
                {fault}
              </p>
            ))}
          </div>
          <ProblemNote error={error} />
          <Button kind="main" type="submit" busy={busy} disabled={faults.length > 0}>
            {printers.save}
          </Button>
        </div>
      </form>
    </Dialog>
  );
}

function useSave(id: string | null, onClose: () => void) {
  const { sheets: t } = useTexts().labels;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const onSaved = ({ name }: { name: string }) => {
    refresh("listSheets");
    announce({ text: t.saved(name) });
    onClose();
  };
  const add = useWrite("addSheet", onSaved);
  const change = useWrite("changeSheet", onSaved);
  const { error, isPending } = id === null ? add : change;
  return {
    error,
    busy: isPending,
    save: (body: SheetGeometry & { name: string }) => {
      if (body.name === "") return;
      if (id === null) add.mutate({ body });
      else change.mutate({ params: { sheetId: id }, body });
    },
  };
}

/** What is wrong with a sheet, in sentences with the measure that is missing. */
function useSayFaults(): (shape: SheetGeometry, unit: SheetDraft["unit"]) => readonly string[] {
  const { sheets: t, unitSigns } = useTexts().labels;
  const { language } = useFormats();
  return (shape, unit) =>
    measureFaults(shape).map(({ kind, by }) =>
      t.faults[kind](
        kind === "too-many" ? String(by) : `${showLength(by, unit, language)} ${unitSigns[unit]}`,
      ),
    );
}
