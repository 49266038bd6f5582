import { readFileSync } from "node:fs";
import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import {
  applyScannerProfile,
  diagnoseScanner,
  hibcCheckCharacter,
  readLabel,
  recogniseSetUpSymbol,
  scannerSetUpSymbols,
  type ReadOptions,
  type ScannerDiagnosis,
} from "./index.ts";
import {
  hosts,
  isSentByKeys,
  observe,
  sentText,
  type Simulated,
} from "./simulated-scanner.fixture.ts";

const today = "2026-06-15";
const gs1 = `]d2${scannerSetUpSymbols[0]!.text}`;
const hibc = `]d1${scannerSetUpSymbols[1]!.text}`;

const setUp = (set: Simulated, carrier = "]d1"): ScannerDiagnosis =>
  diagnoseScanner({ gs1: observe(gs1, set), hibc: observe(hibc.replace("]d1", carrier), set) });

/** The findings that ask for something. */
const faultsOf = ({ findings }: ScannerDiagnosis) =>
  findings.filter(({ fix }) => fix !== "nothing-to-do").map(({ kind }) => kind);

describe("the set-up symbols", () => {
  test("are valid labels, the second with a space for its check character", () => {
    const options = { today, associations: "enforce" } as const;
    expect(readLabel(gs1, options)).toMatchObject({ ok: true, warnings: [] });
    expect(readLabel(hibc, options)).toMatchObject({ ok: true, warnings: [] });
    expect(hibcCheckCharacter(hibc.slice(3, -1))).toBe(" ");
    const bracketed = scannerSetUpSymbols[0]!.bracketed!;
    const printed = readLabel(bracketed, options);
    expect(printed.ok && printed.elements).toEqual(
      [
        ["01", "09506000134352"],
        ["10", `aQz-W/y+M8"q_Y!7A`],
        ["21", `Zm'i;N?w=K:b,G.E%*&i`],
      ].map(([ai, value]) => ({ ai, value })),
    );
  });

  test("tell every two of the layouts apart", () => {
    for (const scanner of hosts) {
      for (const host of hosts) {
        const { typed } = observe(gs1, { scanner, host, identifiers: false });
        expect(typed === `${gs1.slice(3)}\r`).toBe(scanner === host);
      }
    }
  });

  test("are told apart from each other and from anything else, on every layout", () => {
    for (const host of hosts) {
      expect(recogniseSetUpSymbol(observe(gs1, { host }))).toBe("gs1");
      expect(recogniseSetUpSymbol(observe(hibc, { host }))).toBe("hibc");
      expect(recogniseSetUpSymbol(observe(gs1, { scanner: host, host: "DE" }))).toBe("gs1");
    }
    expect(recogniseSetUpSymbol(observe("]E04006381333931", {}))).toBeUndefined();
  });
});

describe("a scanner", () => {
  test("without fault gets the usual profile, and its identifiers are noted", () => {
    expect(setUp({})).toEqual({
      profile: {
        gsTokens: [],
        prefix: "",
        suffix: "",
        keyboard: "as-typed",
        endKey: "Enter",
        maxGapMs: 35,
        minKeys: 6,
      },
      findings: [{ kind: "identifier-sent", fix: "nothing-to-do", text: "]d2" }],
    });
  });

  const upper = (text: string) => text.toUpperCase();
  const lower = (text: string) => text.toLowerCase();
  const setRight: [string, Simulated, string[], object][] = [
    [
      "braces for the separator",
      { separator: "{GS}" },
      ["separator-substituted"],
      { gsTokens: ["{GS}"] },
    ],
    [
      "<GS> for the separator",
      { separator: "<GS>" },
      ["separator-substituted"],
      { gsTokens: ["<GS>"] },
    ],
    [
      "F8 for the separator",
      { separator: "{F8}" },
      ["separator-substituted"],
      { gsTokens: ["{F8}"] },
    ],
    ["~1 for the separator", { separator: "~1" }, ["separator-substituted"], { gsTokens: ["~1"] }],
    ["Tab for the separator", { separator: "\t" }, ["separator-substituted"], { gsTokens: ["\t"] }],
    ["a separator in front", { leading: true }, [], { gsTokens: [] }],
    ["a prefix", { prefix: "S>" }, ["prefix-added"], { prefix: "S>" }],
    ["a suffix", { suffix: "#1" }, ["suffix-added"], { suffix: "#1" }],
    ["a space behind everything", { suffix: " " }, ["suffix-added"], { suffix: " " }],
    ["Tab at the end", { end: "\t" }, [], { endKey: "Tab" }],
    ["two keys at the end", { end: "\r\n" }, [], { endKey: "Enter" }],
    ["no key at the end", { end: "" }, ["no-end-key"], { endKey: "none" }],
    ["no identifiers", { identifiers: false }, [], { keyboard: "as-typed" }],
    ["Caps Lock on", { caps: true }, ["caps-lock"], { keyboard: "by-position" }],
    ["a German host", { host: "DE" }, ["keyboard-layout"], { keyboard: "by-position" }],
    ["a French host", { host: "FR" }, ["keyboard-layout"], { keyboard: "by-position" }],
    [
      "a Belgian host and Caps Lock",
      { host: "BE", caps: true },
      ["caps-lock", "keyboard-layout"],
      { keyboard: "by-position" },
    ],
    ["the layout of its German host", { scanner: "DE", host: "DE" }, [], { keyboard: "as-typed" }],
    ["long gaps", { gapMs: 30 }, [], { maxGapMs: 45 }],
    ["gaps as long as can be", { gapMs: 60 }, [], { maxGapMs: 60 }],
  ];
  test.each(setRight)("with %s is set right here", (_what, set, faults, profile) => {
    const told = setUp(set);
    expect(faultsOf(told)).toEqual(faults);
    expect(told.profile).toMatchObject(profile);
  });

  const fullAscii = (text: string) =>
    text.startsWith("+") ? text.replace(/\+([A-Z])/g, (_, letter: string) => lower(letter)) : text;
  const strip = (text: string) => (text.startsWith("+") ? text.slice(0, -1) : text);
  const toBeChanged: [string, Simulated, string[]][] = [
    ["the separator left out", { separator: "" }, ["separator-lost"]],
    ["a separator that can be data", { separator: "%1D" }, ["separator-ambiguous"]],
    ["a letter for the separator", { separator: "x" }, ["separator-ambiguous"]],
    ["Enter for the separator and at the end", { separator: "\r" }, ["separator-ambiguous"]],
    ["a separator of nine characters", { separator: "{GROUPSEP" }, ["separator-ambiguous"]],
    ["capital letters only", { spoil: upper }, ["letters-capital"]],
    ["small letters only", { spoil: lower }, ["letters-small"]],
    [
      "another layout than the host's, not a US one",
      { scanner: "FR", host: "DE" },
      ["characters-changed"],
    ],
    ["spaces cut off at the end", { spoil: (text) => text.trimEnd() }, ["last-character-lost"]],
    [
      "an underscore for the space",
      { spoil: (text) => text.replace(/ $/, "_") },
      ["space-changed"],
    ],
    ["full ASCII conversion", { spoil: fullAscii }, ["full-ascii"]],
    ["gaps of 61 ms", { gapMs: 61 }, ["too-slow"]],
  ];
  test.each(toBeChanged)("with %s must be changed, and gets no profile", (_what, set, faults) => {
    const told = setUp(set);
    expect(told.profile).toBeNull();
    expect([...new Set(faultsOf(told))]).toEqual(faults);
  });

  test("that takes the check character off says so by its identifier", () => {
    const told = setUp({ spoil: strip }, "]A3");
    expect(told.profile).toBeNull();
    expect(faultsOf(told)).toEqual(["check-character-stripped"]);
    expect(faultsOf(setUp({}, "]A4"))).toEqual(["full-ascii"]);
  });

  test("that calls the GS1 symbol a plain one must be changed", () => {
    const told = diagnoseScanner({
      gs1: observe(gs1.replace("]d2", "]d1"), {}),
      hibc: observe(hibc, {}),
    });
    expect(told.profile).toBeNull();
    expect(faultsOf(told)).toEqual(["identifier-wrong"]);
  });

  test("that puts brackets round the AIs must be changed", () => {
    const bracketed = `]d2${scannerSetUpSymbols[0]!.bracketed!}`;
    const told = diagnoseScanner({ gs1: observe(bracketed, {}), hibc: observe(hibc, {}) });
    expect([told.profile, ...faultsOf(told)]).toEqual([null, "brackets-added"]);
  });

  test("that adds something else for each kind of symbol must be changed", () => {
    const told = diagnoseScanner({
      gs1: observe(gs1, { prefix: "w", identifiers: false }),
      hibc: observe(hibc, { prefix: "j", identifiers: false }),
    });
    expect([told.profile, ...faultsOf(told)]).toEqual([null, "additions-vary"]);
  });

  test("that ends one scan and not the other must be changed", () => {
    const told = diagnoseScanner({ gs1: observe(gs1, {}), hibc: observe(hibc, { end: "" }) });
    expect([told.profile, ...faultsOf(told)]).toEqual([null, "end-key-varies"]);
  });

  test("of which one symbol was scanned twice, or another label, is not judged", () => {
    const twice = diagnoseScanner({ gs1: observe(gs1, {}), hibc: observe(gs1, {}) });
    expect([twice.profile, ...faultsOf(twice)]).toEqual([null, "not-the-symbol"]);
    const other = observe("]E04006381333931", {});
    const strange = diagnoseScanner({ gs1: other, hibc: other });
    expect(faultsOf(strange)).toEqual(["not-the-symbol", "not-the-symbol"]);
  });

  test("that inverts letters itself is not taken for Caps Lock", () => {
    const invert = (text: string) =>
      text.replace(/[A-Za-z]/g, (one) => (one === lower(one) ? upper(one) : lower(one)));
    const told = setUp({ spoil: invert });
    expect(told.profile).toBeNull();
    expect([...new Set(faultsOf(told))]).toEqual(["letters-inverted"]);
  });
});

type Vector = {
  id: string;
  input: string | string[];
  options: { reference_date: string; associations: "enforce" | "defer"; gs_tokens?: string[] };
  expect: { ok: boolean; elements?: object[]; fields?: object };
};
const { vectors }: { vectors: Vector[] } = JSON.parse(
  readFileSync(new URL("./vectors.fixture.json", import.meta.url), "utf8"),
);

/** Labels that a faultless scanner delivers: printable characters and the three separators. */
const samples = vectors.filter(
  ({ input, options, expect: { ok } }) =>
    ok && options.gs_tokens === undefined && [input].flat().every(isSentByKeys),
);

const optionsOf = ({ options }: Vector): ReadOptions => ({
  today: options.reference_date,
  associations: options.associations,
});

/** What a label says, read from these texts; undefined where it is refused. */
function told(texts: readonly string[], options: ReadOptions): string | undefined {
  const read = readLabel(texts.length === 1 ? texts[0]! : texts, options);
  return read.ok ? JSON.stringify([read.elements, read.fields]) : undefined;
}

const isWithout = (texts: readonly string[], tokens: readonly string[]): boolean =>
  texts.every((text) => tokens.every((token) => !text.includes(token)));

describe("a profile", () => {
  test("is tried on enough sample labels", () => {
    expect(samples.length).toBeGreaterThan(40);
  });

  const anySet: fc.Arbitrary<Simulated> = fc.record(
    {
      host: fc.constantFrom(...hosts),
      caps: fc.boolean(),
      end: fc.constantFrom("\r", "\t", "\r\n", ""),
      gapMs: fc.integer({ min: 1, max: 70 }),
      separator: fc.oneof(
        fc.constantFrom(
          "",
          "\u001d",
          "{GS}",
          "^]",
          "|",
          "<GS>",
          "{F8}",
          "~1",
          "#",
          "%1D",
          "\t",
          "\r",
        ),
        fc.stringMatching(/^[ -~]{1,9}$/),
      ),
      leading: fc.boolean(),
      prefix: fc.constantFrom("", "S>", "]", "0", "\u0002", "{F9}", "+"),
      suffix: fc.constantFrom("", " ", "*", "\u0003", "#1"),
      identifiers: fc.boolean(),
    },
    { requiredKeys: [] },
  );

  test("that is given reads every sample label back exactly, whatever the scanner does", () => {
    let given = 0;
    const check = (set: Simulated) => {
      const { profile } = setUp(set);
      if (profile === null) return;
      given += 1;
      const { gsTokens } = profile;
      const arrived = (text: string) =>
        applyScannerProfile(profile, observe(text, { ...set, end: "" }));
      const wrong = samples.filter((sample) => {
        const { identifiers = true, leading = false } = set;
        const inputs = [sample.input].flat();
        // What a scanner without identifiers, or with a separator in front, can tell at best.
        const plain = inputs.map((text) => sentText(text, { identifiers, leading }));
        const wanted = told(plain, optionsOf(sample));
        if (wanted === undefined || !isWithout(plain, gsTokens)) return false;
        return wanted !== told(inputs.map(arrived), { ...optionsOf(sample), gsTokens });
      });
      expect(wrong).toEqual([]);
    };
    fc.assert(fc.property(anySet, check), { numRuns: 500 });
    expect(given).toBeGreaterThan(100);
  });

  test("leaves a text alone that lacks what the scanner usually adds", () => {
    const { profile } = setUp({ prefix: "S>", suffix: "#1" });
    expect(applyScannerProfile(profile!, { typed: "CK7QW4X", byPosition: "" })).toBe("CK7QW4X");
  });

  test("keeps the separator's text in the raw text, with a warning", () => {
    const { profile } = setUp({ separator: "<GS>" });
    const raw = applyScannerProfile(profile!, observe(gs1, { separator: "<GS>", end: "" }));
    expect(raw).toContain("<GS>");
    const read = readLabel(raw, { today, gsTokens: profile!.gsTokens });
    expect(read.ok && read.warnings.map(({ kind }) => kind)).toEqual(["separator_substituted"]);
  });
});
