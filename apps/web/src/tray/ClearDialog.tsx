import { useState, type ReactNode } from "react";
import { useLocation } from "wouter";
import { showContainerCode } from "#domain";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { usePlaceTarget } from "../scanner/OwnCodes.tsx";
import { ScanEntry } from "../scanner/ScanEntry.tsx";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import type { Scan } from "../scanner/scan.ts";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { Select, TextField } from "../ui/Field.tsx";
import { ProblemNote, QueryView } from "../ui/States.tsx";
import type { Tray } from "./columns.ts";
import {
  containersOf,
  findScanned,
  readFates,
  thrownAway,
  usedUp,
  usualFate,
  type Container,
  type Fates,
  type Notes,
  type Return,
} from "./fates.ts";

interface ClearDialogProps {
  tray: Tray;
  onClose: () => void;
}

/** Ends a tray: what is empty, where the rest goes back, what is thrown away and why. */
export function ClearDialog({ tray, onClose }: ClearDialogProps): ReactNode {
  const t = useTexts();
  const query = useRead("getTrayReturns", { params: { trayId: tray.id } });
  if (query.data !== undefined) {
    return <FatesDialog {...{ tray, onClose }} returns={query.data.containers} />;
  }
  return (
    <Dialog title={t.tray.clearTitle} onClose={onClose} closeLabel={t.common.cancel}>
      <QueryView query={query}>{() => null}</QueryView>
    </Dialog>
  );
}

function useClear() {
  const t = useTexts();
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [, navigate] = useLocation();
  return useWrite("clearTray", () => {
    refresh("getTray", "listTrays", "getToday", "listContainers");
    announce({ text: t.tray.cleared });
    navigate(paths.today());
  });
}

function FatesDialog(props: ClearDialogProps & { returns: readonly Return[] }): ReactNode {
  const { tray, returns, onClose } = props;
  const t = useTexts();
  const usual = Object.fromEntries(returns.map((one) => [one.containerId, usualFate(one)]));
  const [chosen, setChosen] = useState<Fates>({});
  const [notes, setNotes] = useState<Notes>({});
  const choose = (id: string, fate: string) => setChosen((before) => ({ ...before, [id]: fate }));
  const inHand = useReturning(tray, choose);
  const clear = useClear();
  const fates = { ...usual, ...chosen };
  const containers = containersOf(tray);
  const body = readFates(containers, fates, notes);
  return (
    <Dialog
      title={t.tray.clearTitle}
      onClose={onClose}
      closeLabel={t.common.cancel}
      actions={
        <Button
          kind="main"
          busy={clear.isPending}
          disabled={body.discarded.some(({ note }) => note.length < 3)}
          onClick={() => clear.mutate({ params: { trayId: tray.id }, body })}
        >
          {t.tray.clear}
        </Button>
      }
    >
      <p>{t.tray.clearText}</p>
      {containers.length === 0 ? null : <p className="hint">{t.tray.fates.scan}</p>}
      {containers.map((container) => (
        <FateFields
          key={container.id}
          container={container}
          about={returns.find(({ containerId }) => containerId === container.id)}
          isInHand={inHand === container.id}
          fate={fates[container.id] ?? container.location.id}
          note={notes[container.id] ?? ""}
          onFate={(fate) => choose(container.id, fate)}
          onNote={(note) => setNotes({ ...notes, [container.id]: note })}
        />
      ))}
      <ScanEntry withCamera />
      <ProblemNote error={clear.error} />
    </Dialog>
  );
}

/** A scanned container is the one in hand; the code of a place scanned then says where it goes. */
function useReturning(tray: Tray, choose: (id: string, fate: string) => void): string | null {
  const t = useTexts();
  const words = t.tray.fates;
  const announce = useAnnounce();
  const [inHand, take] = useState<Container | null>(null);
  const nameOf = ({ product, code }: Container) => `${product.name} ${showContainerCode(code)}`;
  useScanTarget((scan: Scan) => {
    const found = findScanned(tray, scan);
    playSound(found === undefined ? "look" : "taken");
    if (found === undefined) return announce({ text: words.notHere, tone: "look" });
    take(found);
    announce({ text: words.inHand(nameOf(found)) });
  }, t.tray.clearTitle);
  usePlaceTarget(({ id, name, kind }) => {
    const mayGo = inHand !== null && shelves.includes(kind);
    playSound(mayGo ? "taken" : "look");
    if (!mayGo) return announce({ text: words.scanFirst, tone: "look" });
    choose(inHand.id, id);
    announce({ text: `${nameOf(inHand)}: ${words.back(name)}` });
  });
  return inHand?.id ?? null;
}

const shelves: readonly string[] = ["store", "refrigerator", "operatory"];

interface FateFieldsProps {
  container: Container;
  about: Return | undefined;
  isInHand: boolean;
  fate: string;
  note: string;
  onFate: (fate: string) => void;
  onNote: (note: string) => void;
}

function FateFields(props: FateFieldsProps): ReactNode {
  const { container, about, isInHand, fate, note, onFate, onNote } = props;
  const t = useTexts();
  const words = t.tray.fates;
  const { data } = useRead("listLocations", {}, { staleMs: 300_000 });
  const places = (data?.locations ?? []).filter(({ kind }) => shelves.includes(kind));
  const { product, code } = container;
  const stays = about?.onShelf === false;
  return (
    <div className={isInHand ? "fate in-hand" : "fate"}>
      <Select
        label={`${product.name} ${showContainerCode(code)}`}
        hint={about === undefined ? undefined : sayWhy(words, about)}
        value={fate}
        onChange={({ target }) => onFate(target.value)}
      >
        {stays ? <option value={about.place.id}>{words.stays(about.place.name)}</option> : null}
        {(stays ? [] : places).map(({ id, name }) => (
          <option key={id} value={id}>
            {words.back(name)}
          </option>
        ))}
        <option value={usedUp}>{words.empty}</option>
        <option value={thrownAway}>{words.discard}</option>
      </Select>
      {fate === thrownAway ? (
        <TextField
          label={words.why}
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

type FateWords = ReturnType<typeof useTexts>["tray"]["fates"];

/** Why it is not simply put back where it stood. */
function sayWhy(words: FateWords, { onShelf, place, otherTray }: Return): string | undefined {
  if (!onShelf) return words.notOnShelf(place.name);
  return otherTray === null ? undefined : words.alsoOn(otherTray.name, otherTray.room.name);
}
