/** Scanners replayed key by key: other layouts, Caps Lock, Alt codes, keys in place of others. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "@jest/globals";
import {
  applyScannerProfile,
  diagnoseScanner,
  readLabel,
  scannerSetUpSymbols,
  usualScannerProfile,
  type ScannerObservation,
} from "#labels";
import {
  characterAtHost,
  hosts,
  isSentByKeys,
  keysOfScanner,
  type Host,
  type ScannerKey,
} from "../../../../libs/labels/simulated-scanner.fixture.ts";
import { observingSettings, settingsOf } from "./device-profile.ts";
import { burst, keysOf, play, type Press } from "./wedge.fixture.ts";
import type { Burst } from "./wedge.ts";

const fixture: { vectors: { input: string | string[]; expect: { ok: boolean } }[] } = JSON.parse(
  readFileSync(new URL("../../../../libs/labels/vectors.fixture.json", import.meta.url), "utf8"),
);
/** Every text of the label vectors that a scanner's keys can make, and the set-up symbols. */
const texts = [
  ...fixture.vectors.filter(({ expect: { ok } }) => ok).flatMap(({ input }) => input),
  ...scannerSetUpSymbols.map(({ text }) => `]d2${text}`),
].filter((text) => text.length >= 6 && isSentByKeys(text));

const control = { key: "Control", code: "ControlLeft" };
const shift = { key: "Shift", code: "ShiftLeft" };

function pressesOf(key: ScannerKey, host: Host, caps: boolean): Press[] {
  const character = characterAtHost(key, host, caps);
  const name = character === "◌" ? "Dead" : character;
  const stroke = { key: name, code: key.code, shift: key.shift, ctrl: key.ctrl, after: 3 };
  const around = key.ctrl ? control : key.shift ? shift : null;
  const up: Press = { ...stroke, down: false, after: 1 };
  if (around === null) return [stroke, up];
  const held = { shift: key.shift, ctrl: key.ctrl };
  return [{ ...around, ...held, after: 2 }, stroke, up, { ...around, down: false, after: 1 }];
}

/** The keys of a scanner set to a United States keyboard, as they come on a host. */
function scanOn(text: string, host: Host, caps = false): Press[] {
  const keys = keysOfScanner(text, "US").flatMap((key) => pressesOf(key, host, caps));
  const [first, ...others] = keys;
  return [{ ...first!, after: 400 }, ...others, { key: "Enter", code: "Enter", after: 3 }];
}

const onlyBurst = (presses: Press[], settings = settingsOf(usualScannerProfile)): Burst => {
  const { bursts, field } = play(presses, { settings });
  expect(bursts).toHaveLength(1);
  expect(field).toBe("");
  return bursts[0]!;
};

describe("a scanner set to a United States keyboard", () => {
  test("is replayed with enough labels", () => {
    expect(texts.length).toBeGreaterThan(50);
  });

  test.each(hosts.flatMap((host) => [false, true].map((caps) => [host, caps] as const)))(
    "on a host with the layout %s, Caps Lock %s, is read by the places of its keys",
    (host, caps) => {
      for (const text of texts) {
        const { byPosition, typed, capsLock } = onlyBurst(scanOn(text, host, caps));
        expect(byPosition).toBe(text);
        expect(capsLock).toBe(caps && /[A-Za-z]/.test(text));
        if (host === "US" && !caps) expect(typed).toBe(text);
      }
    },
  );

  test.each(hosts)(
    "on a host with the layout %s is set up, and then reads a lot exactly",
    (host) => {
      for (const caps of [false, true]) {
        const observed = (key: "gs1" | "hibc"): ScannerObservation => {
          const { text } = scannerSetUpSymbols.find((symbol) => symbol.key === key)!;
          return onlyBurst(scanOn(text, host, caps), observingSettings);
        };
        const { profile } = diagnoseScanner({ gs1: observed("gs1"), hibc: observed("hibc") });
        const isPlain = host === "US" && !caps;
        expect(profile?.keyboard).toBe(isPlain ? "as-typed" : "by-position");
        const lot = "]d2010950600013435210yZ-Q/a_8\u001d21M7";
        const raw = applyScannerProfile(profile!, onlyBurst(scanOn(lot, host, caps)));
        expect(readLabel(raw, { today: "2026-06-15" })).toMatchObject({
          ok: true,
          fields: { lot: "yZ-Q/a_8", serial: "M7" },
        });
      }
    },
  );

  test("with its letters on the keypad's digits is read where Num Lock is off", () => {
    const off = ["Insert", "End", "ArrowDown", "PageDown", "ArrowLeft"];
    const keys = Array.from("0109506000134352", (digit): Press => ({
      key: off[Number(digit)] ?? "Home",
      code: `Numpad${digit}`,
      after: 4,
    }));
    const head = keysOf("CK", 4).map((press) => ({
      ...press,
      code: `Key${press.key}`,
      shift: true,
    }));
    const presses = [...head, ...keys, { key: "Enter", after: 4 }];
    expect(onlyBurst(presses).byPosition).toBe("CK0109506000134352");
  });
});

describe("a scanner that makes every character by Alt and the keypad", () => {
  const altCode = (character: string, digits: number): Press[] => [
    { key: "Alt", code: "AltLeft", alt: true, after: 3 },
    ...Array.from(`${character.charCodeAt(0)}`.padStart(digits, "0"), (digit): Press => ({
      key: digit,
      code: `Numpad${digit}`,
      alt: true,
      after: 3,
    })),
    { key: "Alt", code: "AltLeft", down: false, after: 3 },
  ];

  test.each([3, 4])("in codes of %s digits is read on any host", (digits) => {
    for (const text of texts) {
      const [first, ...others] = Array.from(text).flatMap((each) => altCode(each, digits));
      const { typed, byPosition } = onlyBurst([
        { ...first!, after: 400 },
        ...others,
        { key: "Enter", after: 3 },
      ]);
      expect([typed, byPosition]).toEqual([text, text]);
    }
  });

  test("beyond ASCII leaves a mark that no label contains", () => {
    const presses = [...keysOf("0112345", 4), ...altCode("\u00e9", 4), ...keysOf("7", 4)];
    const { typed } = onlyBurst([...presses, { key: "Enter", after: 4 }]);
    expect(typed).toBe("0112345\u{fffd}7");
  });
});

describe("keys that stand for something else", () => {
  const head = keysOf("10LOT7", 8);
  const tail = [...keysOf("17270531", 8), { key: "Enter", after: 8 }];

  test("a function key in a burst is held and named; alone it is the browser's", () => {
    const f8: Press = { key: "F8", code: "F8", after: 8 };
    const { scans, reached } = play([...head, f8, ...tail]);
    expect(scans).toEqual(["10LOT7{F8}17270531"]);
    expect(reached).not.toContain("F8");
    expect(play([f8]).reached).toEqual(["F8"]);
    const inFront = play([
      { key: "F9", after: 400 },
      ...burst("CK7QW4X").map((press, index) => (index === 0 ? { ...press, after: 8 } : press)),
    ]);
    expect(inFront.scans).toEqual(["{F9}CK7QW4X"]);
  });

  test("Ctrl and a letter in a burst is its control character, and opens no dialog", () => {
    const print: Press = { key: "p", code: "KeyP", ctrl: true, after: 8 };
    const { scans, reached } = play([...head, print, ...tail]);
    expect(scans).toEqual(["10LOT7\u001017270531"]);
    expect(reached).not.toContain("p");
  });

  test("Ctrl and M or J ends a burst as Enter does", () => {
    for (const key of ["m", "j"]) {
      const end: Press = { key, code: `Key${key.toUpperCase()}`, ctrl: true, after: 8 };
      expect(onlyBurst([...head, end])).toMatchObject({ typed: "10LOT7", endKey: "Enter" });
    }
  });

  test("Tab is a separator where Enter alone ends a burst", () => {
    const settings = settingsOf({ ...usualScannerProfile, endKey: "Enter", gsTokens: ["\t"] });
    const tab: Press = { key: "Tab", after: 8 };
    expect(onlyBurst([...head, tab, ...tail], settings).typed).toBe("10LOT7\t17270531");
    // A person's Tab is a person's.
    expect(play([...keysOf("sealed", 20), { ...tab, after: 90 }], { settings }).reached).toContain(
      "Tab",
    );
    expect(play([...keysOf("abc", 20), tab], { settings }).reached).toContain("Tab");
  });

  test("a bracket by AltGr is what the host's layout says, in both readings", () => {
    const bracket: Press = { key: "]", code: "Digit9", ctrl: true, alt: true, after: 8 };
    const { typed, byPosition } = onlyBurst([
      { ...bracket, after: 400 },
      ...keysOf("d2", 8),
      ...head,
      ...tail,
    ]);
    expect([typed, byPosition]).toEqual(["]d210LOT717270531", "]d210LOT717270531"]);
  });
});

describe("a burst", () => {
  test("tells its end key and its gaps", () => {
    const { endKey, gapsMs } = onlyBurst(burst("CK7QW4X", 12, "Tab"));
    expect(endKey).toBe("Tab");
    expect(gapsMs).toEqual([12, 12, 12, 12, 12, 12, 8]);
  });

  test("is known by what is observed, whatever ends it", () => {
    const observed = onlyBurst(
      [...burst("CK7QW4X", 90, "Tab"), { key: "Enter", after: 90 }],
      observingSettings,
    );
    expect(observed).toMatchObject({ typed: "CK7QW4X\t\r", endKey: null });
  });
});
