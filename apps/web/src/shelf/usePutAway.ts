import { useRef, useState } from "react";
import { showOwnCode } from "#domain";
import { call } from "../api/client.ts";
import { useRefresh } from "../api/queries.ts";
import { makeUuid } from "../api/uuid.ts";
import { textsOf, type Scan } from "../scanner/scan.ts";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce, type Tone } from "../ui/Announcer.tsx";
import type { Container } from "../ui/ContainerWords.tsx";
import { useSayError } from "../ui/States.tsx";
import { collect, isShelf, listDue } from "./put-away.ts";

type Place = Container["location"];

export interface PutAway {
  list: readonly Container[];
  busy: boolean;
  scan: (scan: Scan) => void;
  takeOut: (id: string) => void;
  /** Moves what is on the list; what could not be moved stays on it. */
  moveTo: (place: Place) => void;
}

/** Collects containers by scans and moves them together; one tap undoes it. */
export function usePutAway(): PutAway {
  const { putAway: t } = useTexts().labels;
  const say = useSay();
  const sayError = useSayError();
  const [list, setList] = useState<readonly Container[]>([]);
  // As it will be: scans come faster than the screen is drawn.
  const newest = useRef(list);
  const [busy, setBusy] = useState(false);
  const change = (next: readonly Container[]) => {
    newest.current = next;
    setList(next);
  };
  const moveAll = useMoveAll();
  const under = useRef(Promise.resolve());
  // One after the other: a place scanned at once must not overtake the container before it.
  const queue = (work: () => Promise<void>) => {
    under.current = under.current.then(work).catch((error: unknown) => say(sayError(error), "bad"));
  };

  async function take(scan: Scan): Promise<void> {
    const { containers } = await call("readScan", { body: textsOf(scan) });
    const answer = collect(newest.current, containers);
    change(answer.list);
    if (!("container" in answer)) return say(t[answer.outcome], "look");
    const code = showOwnCode(answer.container.code);
    if (answer.outcome === "added") return say(t.added(answer.container.product.name, code));
    return say(t[answer.outcome](code), "look");
  }

  async function moveTo(place: Place): Promise<void> {
    if (!isShelf(place)) return say(t.notThere(place.name), "look");
    if (newest.current.length === 0) return say(t.scanFirst(place.name), "look");
    setBusy(true);
    const due = listDue(newest.current, place.id);
    const failed = await moveAll(due, place);
    const left = due.filter(({ id }) => failed.has(id));
    change(newest.current.filter((one) => left.includes(one)));
    setBusy(false);
    const [error] = failed.values();
    if (error !== undefined) say(`${t.left(left.length)} ${sayError(error)}`, "bad");
  }

  return {
    list,
    busy,
    scan: (scan) => queue(() => take(scan)),
    takeOut: (id) => change(newest.current.filter((one) => one.id !== id)),
    moveTo: (place) => queue(() => moveTo(place)),
  };
}

function useSay(): (text: string, tone?: Tone) => void {
  const announce = useAnnounce();
  return (text, tone = "good") => {
    playSound(tone === "good" ? "taken" : "look");
    announce({ text, tone });
  };
}

/** Moves one after the other and gives those that failed, with why; the others can be undone. */
export function useMoveAll() {
  const { common, labels } = useTexts();
  const { putAway: t } = labels;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const undo = useUndo();
  // The same movement sent again after a lost answer goes under the same key.
  const keys = useRef(new Map<string, string>());
  return async (due: readonly Container[], place: Place): Promise<Map<string, unknown>> => {
    const failed = new Map<string, unknown>();
    const moved: string[] = [];
    for (const { id, location } of due) {
      const way = `${id} ${location.id} ${place.id}`;
      const key = keys.current.get(way) ?? makeUuid();
      keys.current.set(way, key);
      const where = { fromLocationId: location.id, toLocationId: place.id };
      const body = { containerId: id, ...where, reason: "put-away", note: t.note } as const;
      try {
        moved.push((await call("move", { body, key })).movement.id);
        keys.current.delete(way);
      } catch (error) {
        failed.set(id, error);
      }
    }
    refresh("getContainer", "listContainers", "getToday", "traceStock", "getTray");
    if (failed.size === 0) playSound("taken");
    if (moved.length === 0 && failed.size === 0) announce({ text: t.there(place.name) });
    if (moved.length > 0) {
      const action = { label: common.undo, act: () => undo(moved) };
      announce({ text: t.done(moved.length, place.name), action });
    }
    return failed;
  };
}

function useUndo(): (movements: readonly string[]) => void {
  const { putAway: t } = useTexts().labels;
  const announce = useAnnounce();
  const sayError = useSayError();
  const refresh = useRefresh();
  async function undo(movements: readonly string[]): Promise<void> {
    for (const movementId of movements.toReversed()) {
      await call("reverseMovement", { params: { movementId }, body: { note: t.undoNote } });
    }
    announce({ text: t.undone(movements.length) });
  }
  return (movements) => {
    undo(movements)
      .catch((error: unknown) => announce({ text: sayError(error), tone: "bad" }))
      .finally(() => refresh("getContainer", "listContainers", "getToday", "getTray"));
  };
}
