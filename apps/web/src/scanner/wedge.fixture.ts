/** A page with one text field before a wedge, for tests: what it would show, and its scans. */
import { Wedge, usualSettings, type Burst, type WedgeSettings } from "./wedge.ts";
import type { WedgeKey } from "./wedge-keys.ts";

/** One key, so many milliseconds after the one before it. */
export type Press = Partial<WedgeKey> & { key: string; after: number };

const keyDefaults: Omit<WedgeKey, "atMs" | "key"> = {
  down: true,
  code: "",
  shift: false,
  ctrl: false,
  alt: false,
  meta: false,
  repeat: false,
  inText: true,
};

interface Played {
  /** What the text field holds in the end. */
  field: string;
  bursts: Burst[];
  /** Their texts as typed. */
  scans: string[];
  /** The keys that the page got. */
  reached: string[];
  endless: number;
}

/** Plays keys to a wedge, with its rests in between as the page's timer gives them. */
export function play(
  presses: readonly Press[],
  { inText = true, settings = usualSettings }: { inText?: boolean; settings?: WedgeSettings } = {},
): Played {
  const wedge = new Wedge(settings);
  const played: Played = { field: "", bursts: [], scans: [], reached: [], endless: 0 };
  let snapshot = "";
  let atMs = 0;
  const follow = (answer: ReturnType<Wedge["press"]>) => {
    played.field += answer.release;
    if (answer.begins) snapshot = played.field;
    played.endless += Number(answer.endless);
    if (answer.scan === null) return;
    played.bursts.push(answer.scan);
    played.field = snapshot;
  };
  const restUntil = (end: number) => {
    const step = settings.maxGapMs + 5;
    for (let rest = atMs + step, waits = true; waits && rest < end; rest += step) {
      const answer = wedge.rest(rest);
      follow(answer);
      ({ waits } = answer);
    }
  };
  for (const { after, ...press } of presses) {
    restUntil(atMs + after);
    atMs += after;
    const answer = wedge.press({ ...keyDefaults, inText, ...press, atMs });
    follow(answer);
    if (answer.hold || press.down === false) continue;
    played.reached.push(press.key);
    if (press.key.length === 1 && !press.ctrl && !press.alt) played.field += press.key;
  }
  restUntil(Number.POSITIVE_INFINITY);
  return { ...played, scans: played.bursts.map(({ typed }) => typed) };
}

/** The keys of a text, one after the other. */
export const keysOf = (text: string, gap: number | (() => number)): Press[] =>
  Array.from(text).map((key) => ({ key, after: typeof gap === "number" ? gap : gap() }));

/** The keys of a scan with its end key, after a pause. */
export function burst(text: string, gap: number | (() => number) = 8, end = "Enter"): Press[] {
  const [first, ...others] = keysOf(text, gap);
  return [{ ...first!, after: 400 }, ...others, { key: end, after: 8 }];
}
