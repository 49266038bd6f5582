import { useState, type ReactNode } from "react";
import { useLocation } from "wouter";
import { showContainerCode } from "#domain";
import type { BodyOf } from "#contracts/operations";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { Select, TextField } from "../ui/Field.tsx";
import { ProblemNote } from "../ui/States.tsx";
import type { Tray } from "./columns.ts";

type Container = NonNullable<Tray["items"][number]["container"]>;
/** What becomes of a container: a place's id, or one of these. */
const usedUp = "used-up";
const thrownAway = "discarded";
type Fates = Readonly<Record<string, string>>;
type Notes = Readonly<Record<string, string>>;

/** Ends a tray: what is empty, where the rest goes back, what is thrown away and why. */
export function ClearDialog({ tray, onClose }: { tray: Tray; onClose: () => void }): ReactNode {
  const t = useTexts();
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [, navigate] = useLocation();
  const usual = useUsualPlaces(tray);
  const [chosen, setChosen] = useState<Fates>({});
  const [notes, setNotes] = useState<Notes>({});
  const clear = useWrite("clearTray", () => {
    refresh("getTray", "listTrays", "getToday", "listContainers");
    announce({ text: t.tray.cleared });
    navigate(paths.today());
  });
  const fates = { ...usual, ...chosen };
  const body = readFates(tray, fates, notes);
  return (
    <Dialog
      title={t.tray.clearTitle}
      onClose={onClose}
      closeLabel={t.common.cancel}
      actions={
        <Button
          kind="main"
          busy={clear.isPending}
          disabled={body.discarded?.some(({ note }) => note.trim().length < 3) === true}
          onClick={() => clear.mutate({ params: { trayId: tray.id }, body })}
        >
          {t.tray.clear}
        </Button>
      }
    >
      <p>{t.tray.clearText}</p>
      {containersOf(tray).map((container) => (
        <FateFields
          key={container.id}
          container={container}
          fate={fates[container.id] ?? tray.location.id}
          note={notes[container.id] ?? ""}
          onFate={(fate) => setChosen({ ...chosen, [container.id]: fate })}
          onNote={(note) => setNotes({ ...notes, [container.id]: note })}
        />
      ))}
      <ProblemNote error={clear.error} />
    </Dialog>
  );
}

const containersOf = ({ items }: Tray): readonly Container[] =>
  items.flatMap(({ container }) => container ?? []);

/** Where each container stood before it was set out: there it goes back, unless told otherwise. */
function useUsualPlaces({ id, location }: Tray): Fates {
  const { data } = useRead("getTrayReturns", { params: { trayId: id } });
  return Object.fromEntries(
    (data?.containers ?? []).map(({ containerId, cameFrom }) => [
      containerId,
      cameFrom?.id ?? location.id,
    ]),
  );
}

function readFates(tray: Tray, fates: Fates, notes: Notes): BodyOf<"clearTray"> {
  const told = containersOf(tray).map(({ id }) => ({ id, fate: fates[id] ?? tray.location.id }));
  const withFate = (fate: string) => told.filter((one) => one.fate === fate).map(({ id }) => id);
  const isPlace = (fate: string): boolean => fate !== usedUp && fate !== thrownAway;
  return {
    usedUp: withFate(usedUp),
    discarded: withFate(thrownAway).map((containerId) => ({
      containerId,
      note: notes[containerId] ?? "",
    })),
    returned: told
      .filter(({ fate }) => isPlace(fate) && fate !== tray.location.id)
      .map(({ id, fate }) => ({ containerId: id, locationId: fate })),
  };
}

const shelves = ["store", "refrigerator", "operatory"];

interface FateFieldsProps {
  container: Container;
  fate: string;
  note: string;
  onFate: (fate: string) => void;
  onNote: (note: string) => void;
}

function FateFields({ container, fate, note, onFate, onNote }: FateFieldsProps): ReactNode {
  const t = useTexts();
  const { data } = useRead("listLocations", {}, { staleMs: 300_000 });
  const places = (data?.locations ?? []).filter(({ kind }) => shelves.includes(kind));
  const { product, code } = container;
  return (
    <div className="fate">
      <Select
        label={`${product.name} ${showContainerCode(code)}`}
        value={fate}
        onChange={({ target }) => onFate(target.value)}
      >
        {places.map(({ id, name }) => (
          <option key={id} value={id}>
            {t.tray.fates.back(name)}
          </option>
        ))}
        <option value={usedUp}>{t.tray.fates.empty}</option>
        <option value={thrownAway}>{t.tray.fates.discard}</option>
      </Select>
      {fate === thrownAway ? (
        <TextField
          label={t.tray.fates.why}
          value={note}
          minLength={3}
          maxLength={2000}
          required
          onChange={({ target }) => onNote(target.value)}
        />
      ) : null}
    </div>
  );
}
