import { useState, type ReactNode } from "react";
import type { BodyOf } from "#contracts/operations";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { Select, TextField } from "../ui/Field.tsx";
import { ProblemNote } from "../ui/States.tsx";
import { readLocal } from "./light-form.ts";

const kept = ["store", "refrigerator", "operatory", "quarantine"];

const empty = { locationId: "", from: "", to: "", lowest: "", highest: "", note: "" };
type Told = typeof empty;

/** A place, from when until when, and how cold or warm it was. */
export function ExcursionDialog({ onClose }: { onClose: () => void }): ReactNode {
  const { keeping, common } = useTexts();
  const { temperatures: t } = keeping;
  const { today, timeZone } = useFormats();
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [told, setTold] = useState({ ...empty, from: `${today()}T00:00`, to: `${today()}T06:00` });
  const [tried, setTried] = useState(false);
  const save = useWrite("openExcursion", () => {
    refresh("listExcursions", "getTray", "getToday");
    announce({ text: t.saved, tone: "look" });
    onClose();
  });
  const body = readExcursion(told, timeZone);
  return (
    <Dialog title={t.open} onClose={onClose} closeLabel={common.cancel}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          setTried(true);
          if (body !== null) save.mutate({ body });
        }}
      >
        <PlaceSelect
          value={told.locationId}
          onChange={(id) => setTold({ ...told, locationId: id })}
        />
        <ExcursionFields told={told} tried={tried} onChange={setTold} />
        <ProblemNote error={save.error} />
        <Button kind="main" type="submit" busy={save.isPending}>
          {t.enter}
        </Button>
      </form>
    </Dialog>
  );
}

function PlaceSelect({
  value,
  onChange,
}: {
  value: string;
  onChange: (id: string) => void;
}): ReactNode {
  const { keeping, common } = useTexts();
  const { data } = useRead("listLocations", {}, { staleMs: 300_000 });
  const places = (data?.locations ?? []).filter(({ kind }) => kept.includes(kind));
  return (
    <Select
      label={keeping.temperatures.place}
      value={value}
      required
      onChange={({ target }) => onChange(target.value)}
    >
      <option value="">{common.choose}</option>
      {places.map(({ id, name }) => (
        <option key={id} value={id}>
          {name}
        </option>
      ))}
    </Select>
  );
}

interface ExcursionFieldsProps {
  told: Told;
  /** Whether what is wrong is told already. */
  tried: boolean;
  onChange: (told: Told) => void;
}

function ExcursionFields({ told, tried, onChange }: ExcursionFieldsProps): ReactNode {
  const { temperatures: t } = useTexts().keeping;
  const { timeZone } = useFormats();
  const field = (name: "from" | "to" | "lowest" | "highest" | "note") => ({
    label: t[name],
    value: told[name],
    onChange: ({ target }: { target: { value: string } }) =>
      onChange({ ...told, [name]: target.value }),
  });
  const degrees = { type: "number", step: "0.1", min: -99, max: 99 };
  return (
    <>
      <div className="pair">
        <TextField {...field("from")} type="datetime-local" required />
        <TextField
          {...field("to")}
          type="datetime-local"
          required
          error={tried && readSpan(told, timeZone) === null ? t.noSuchTime : undefined}
        />
      </div>
      <div className="pair">
        <TextField {...field("lowest")} {...degrees} />
        <TextField
          {...field("highest")}
          {...degrees}
          error={tried && told.lowest + told.highest === "" ? t.noDegrees : undefined}
        />
      </div>
      <TextField {...field("note")} maxLength={2000} />
    </>
  );
}

function readSpan(told: Told, timeZone: string): { from: string; to: string } | null {
  const [from, to] = [readLocal(told.from, timeZone), readLocal(told.to, timeZone)];
  return from === null || to === null || from >= to ? null : { from, to };
}

function readExcursion(told: Told, timeZone: string): BodyOf<"openExcursion"> | null {
  const { locationId, note, lowest, highest } = told;
  const span = readSpan(told, timeZone);
  if (span === null || lowest + highest === "") return null;
  const degreesOf = (text: string): number | null => (text === "" ? null : Number(text));
  return {
    locationId,
    ...span,
    lowestC: degreesOf(lowest),
    highestC: degreesOf(highest),
    note,
  };
}
