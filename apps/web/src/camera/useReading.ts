import { useCallback, useRef, useState } from "react";
import { showContainerCode } from "#domain";
import { identifierOf } from "#labels";
import { readScanned } from "../scanner/scan.ts";
import { useScanEntry } from "../scanner/ScanProvider.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import type { Look } from "./frames.ts";
import { makeOneLabel, readSight } from "./sight.ts";
import { Sightings } from "./sightings.ts";

/** A frame drawn round a symbol: its corners, and whether the symbol counts. */
export interface Outline {
  key: string;
  points: string;
  isSure: boolean;
}

export interface Seen {
  outlines: readonly Outline[];
  size: { width: number; height: number };
  isCrowded: boolean;
  atMs: number;
}

// Not every look sees what is there: the frame round it would flicker.
const drawnMs = 400;
const nothingSeen: Seen = {
  outlines: [],
  size: { width: 1, height: 1 },
  isCrowded: false,
  atMs: 0,
};

interface ReadingUse {
  seen: Seen;
  /** What was last given on as a scan, in words. */
  said: string | null;
  onLook: (look: Look) => void;
}

/** Gives on what the camera shows as scans, each symbol once, and says what was given. */
export function useReading(onRead: () => void): ReadingUse {
  const { today } = useFormats();
  const { enter } = useScanEntry();
  const say = useSayRaw();
  const [seen, setSeen] = useState(nothingSeen);
  const [said, setSaid] = useState<string | null>(null);
  const sightings = useRef<Sightings>(null);
  const onLook = useCallback(
    ({ reads, width, height, atMs }: Look) => {
      sightings.current ??= new Sightings((first, second) => makeOneLabel(first, second, today()));
      const sights = reads.filter(({ sure }) => sure).map(({ text }) => readSight(text, today()));
      const { give, isCrowded } = sightings.current.next(sights, atMs);
      setSeen((before) => {
        const isStill = before.outlines.length === 0 || atMs - before.atMs < drawnMs;
        if (reads.length === 0 && isStill) return before;
        const outlines = reads.map(({ text, corners, sure: isSure }) => {
          const points = corners.map(({ x, y }) => `${Math.round(x)},${Math.round(y)}`).join(" ");
          return { key: text, points, isSure };
        });
        return { outlines, size: { width, height }, isCrowded, atMs };
      });
      for (const raw of give) enter(raw, "camera");
      if (give.length === 0) return;
      navigator.vibrate?.(40);
      setSaid(give.map(say).join(" + "));
      onRead();
    },
    [today, enter, say, onRead],
  );
  return { seen, said, onLook };
}

/** A symbol in short: the practice's own code, or identifier and lot. */
function useSayRaw(): (raw: string) => string {
  const t = useTexts();
  const { today } = useFormats();
  return useCallback(
    (raw) => {
      const reading = readScanned({ barcodes: [raw] }, today());
      if (reading.kind === "unreadable") return t.camera.said.notRead;
      if (reading.kind !== "label") return showContainerCode(reading.code);
      const { fields } = reading.label;
      const lot = fields.lot === undefined ? [] : [`${t.common.lot} ${fields.lot}`];
      return [identifierOf(fields)?.value ?? [], lot].flat().join(" · ");
    },
    [t, today],
  );
}
