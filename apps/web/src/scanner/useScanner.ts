import { useEffect, useRef } from "react";
import { restore, takesText, takeSnapshot, typeText, type TextSnapshot } from "./focused-text.ts";
import { Wedge, usualSettings, type WedgeAnswer, type WedgeKey } from "./wedge.ts";
import { readRemembered } from "../ui/remembered.ts";

export interface ScannerListener {
  onScan: (raw: string) => void;
  /** A burst came without its end key: the scanner's set-up lacks it. */
  onEndless: () => void;
}

/** The longest gap between two keys of this device's scanner, in milliseconds. */
export function readMaxGapMs(): number {
  const kept = Number(readRemembered("scanner-gap-ms"));
  return kept >= 10 && kept <= 60 ? kept : usualSettings.maxGapMs;
}

/** Listens for scans wherever the focus is, before any field or button gets the keys. */
export function useScanner(listener: ScannerListener): void {
  const latest = useRef(listener);
  useEffect(() => {
    latest.current = listener;
  });
  useEffect(() => listen(latest), []);
}

function listen(latest: { current: ScannerListener }): () => void {
  const maxGapMs = readMaxGapMs();
  const wedge = new Wedge({ ...usualSettings, maxGapMs });
  let snapshot: TextSnapshot | null = null;
  let timer = 0;

  function follow(answer: WedgeAnswer): void {
    if (answer.release !== "") typeText(document.activeElement, answer.release);
    if (answer.begins) snapshot = takeSnapshot(document.activeElement);
    if (answer.endless) latest.current.onEndless();
    if (answer.scan === null) return;
    if (snapshot !== null) restore(snapshot);
    snapshot = null;
    latest.current.onScan(answer.scan);
  }

  function onKey(event: KeyboardEvent): void {
    if (event.isComposing) return;
    window.clearTimeout(timer);
    const answer = wedge.press(readKey(event));
    if (answer.hold) {
      event.preventDefault();
      event.stopImmediatePropagation();
    }
    follow(answer);
    timer = window.setTimeout(() => {
      follow(wedge.rest(performance.now()));
    }, maxGapMs + 5);
  }

  window.addEventListener("keydown", onKey, true);
  window.addEventListener("keyup", onKey, true);
  return () => {
    window.clearTimeout(timer);
    window.removeEventListener("keydown", onKey, true);
    window.removeEventListener("keyup", onKey, true);
  };
}

function readKey(event: KeyboardEvent): WedgeKey {
  return {
    atMs: event.timeStamp,
    down: event.type === "keydown",
    key: event.key,
    code: event.code,
    ctrl: event.ctrlKey,
    alt: event.altKey,
    meta: event.metaKey,
    repeat: event.repeat,
    inText: takesText(document.activeElement),
  };
}
