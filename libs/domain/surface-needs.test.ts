import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import {
  contaminants,
  type Contaminant,
  listSurfaceNeeds,
  surfaceNeedCodes,
  type SealedSurface,
  type SurfaceNeedCode,
} from "./surface-needs.ts";
import { contents, provisionalKinds, type Content } from "./vocabulary.ts";

const surface = (told: Partial<SealedSurface> = {}): SealedSurface => ({
  sealedOn: "2026-03-02",
  coated: true,
  provisional: "other",
  provisionalCement: { name: "Some Temp", contents: [] },
  separated: true,
  contaminated: [],
  ...told,
});
const held = (...of: Content[]) => ({ provisionalCement: { name: "Some Temp", contents: of } });
const needsOf = (told: Partial<SealedSurface>, on = "2026-03-09") =>
  listSurfaceNeeds(surface(told), on);
const codesOf = (told: Partial<SealedSurface>, on?: string) =>
  needsOf(told, on).map(({ code }) => code);

describe("what a sealed surface needs", () => {
  test("is, after a week under a provisional, named step by step as they are done", () => {
    expect(codesOf({})).toEqual([
      "remnants",
      "eugenol-free",
      "separator-film",
      "clean",
      "roughen-coat",
      "bond-again",
    ]);
    expect(needsOf({}).filter(({ level }) => level === "caution")).toEqual([]);
  });

  // A eugenol-free cement still lowered the bond: J Funct Biomater 2026;17(2):98.
  test("goes on after a cement without eugenol, and warns of one with it", () => {
    expect(needsOf(held()).find(({ code }) => code === "eugenol-free")).toEqual({
      code: "eugenol-free",
      level: "info",
      numbers: { cement: "Some Temp" },
      source: "eugenol-free-study",
    });
    // Eugenol before a self-adhesive cement lowers the bond: J Appl Oral Sci 2010;18(1).
    const warned = needsOf(held("eugenol", "hema"));
    expect(warned.find(({ code }) => code === "eugenol")).toMatchObject({
      level: "caution",
      source: "eugenol-study",
    });
    expect(warned.map(({ code }) => code)).not.toContain("eugenol-free");
  });

  test("is asked about where a provisional was held by nobody knows what", () => {
    expect(codesOf({ provisionalCement: null })).toContain("remnants-unknown");
    expect(codesOf({ provisionalCement: null })).not.toContain("remnants");
    const bare = codesOf({ provisionalCement: null, provisional: "none" });
    expect(bare).not.toContain("remnants-unknown");
    expect(bare).toEqual(expect.arrayContaining(["clean", "roughen-coat", "bond-again"]));
  });

  // A resin provisional sticks to the seal unless kept apart: KSDM timing study.
  test.each([
    [{ separated: false, provisional: "resin" as const }, true],
    [{ separated: false, ...held("tegdma") }, true],
    [{ separated: false, ...held("eugenol") }, false],
    [{ separated: false }, false],
    [{ separated: true, provisional: "resin" as const }, false],
  ])("warns of resin that was not kept apart: %j, %j", (told, warned) => {
    const codes = codesOf(told);
    expect(codes.includes("resin-stuck")).toBe(warned);
    expect(codes.includes("separator-film")).toBe(told.separated);
  });

  test("is another where no coat lies on the adhesive: abrading may lay dentin open", () => {
    expect(codesOf({ coated: false })).toContain("roughen-thin");
    expect(codesOf({ coated: false })).not.toContain("roughen-coat");
  });

  test("names blood and saliva that were noted", () => {
    const reasonOf = (...contaminated: Contaminant[]) =>
      needsOf({ contaminated }).find(({ code }) => code === "contaminated")?.numbers["reason"];
    expect(reasonOf()).toBeUndefined();
    expect(reasonOf("saliva")).toBe("saliva");
    expect(reasonOf("blood", "blood")).toBe("blood");
    expect(reasonOf("saliva", "blood")).toBe("both");
  });

  // Two weeks are the usual test period; twelve weeks the longest studied (from memory).
  test.each<[number, SurfaceNeedCode | null]>([
    [0, null],
    [13, null],
    [14, null],
    [15, "long-wait"],
    [83, "long-wait"],
    [84, "long-wait"],
    [85, "longer-than-studied"],
  ])("after %j days says %j of the wait", (days, code) => {
    const on = Temporal.PlainDate.from("2026-03-02").add({ days }).toString();
    const told = codesOf({}, on).filter((one) => one.startsWith("long"));
    expect(told).toEqual(code === null ? [] : [code]);
  });

  test("always ends in cleaning, roughening and bonding again, each code once and in order", () => {
    const surfaces = fc.record({
      sealedOn: fc.constant("2026-03-02"),
      coated: fc.boolean(),
      provisional: fc.constantFrom(...provisionalKinds),
      provisionalCement: fc.option(
        fc.record({ name: fc.string({ minLength: 1 }), contents: fc.subarray([...contents]) }),
      ),
      separated: fc.boolean(),
      contaminated: fc.subarray([...contaminants]),
    });
    fc.assert(
      fc.property(surfaces, fc.integer({ min: 0, max: 400 }), (told, days) => {
        const on = Temporal.PlainDate.from("2026-03-02").add({ days }).toString();
        const codes = listSurfaceNeeds(told, on).map(({ code }) => code);
        const places = codes.map((code) => surfaceNeedCodes.indexOf(code));
        expect(places).toEqual([...new Set(places)].sort((a, b) => a - b));
        expect(codes).toEqual(expect.arrayContaining(["clean", "bond-again"]));
        expect(codes.filter((code) => code.startsWith("roughen"))).toHaveLength(1);
        const afterCement = codes.filter((code) => code.startsWith("eugenol"));
        expect(afterCement).toHaveLength(told.provisionalCement === null ? 0 : 1);
      }),
    );
  });
});
