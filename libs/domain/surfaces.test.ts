import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { readSurfaces } from "./surfaces.ts";

describe("surfaces of a tooth", () => {
  // Letters and their order: common practice; the code system of surfaces of HL7 has the same ones.
  test.each([
    ["36", "DOM", "MOD"],
    ["36", "lbdom", "MODBL"],
    ["11", "DIM", "MID"],
    ["13", "P", "L"],
    ["26", "op", "OL"],
    ["55", "MO", "MO"],
    ["83", "fi", "IF"],
  ])("of %s, written %s, are %s", (fdi, text, surfaces) => {
    expect(readSurfaces(fdi, text)).toEqual({ ok: true, surfaces });
  });

  test.each([
    ["19", "MOD", "not-a-tooth"],
    ["36", "  ", "empty"],
    ["36", "MXD", "not-a-surface"],
    ["11", "MOD", "not-on-this-tooth"],
    ["36", "MI", "not-on-this-tooth"],
    ["36", "F", "not-on-this-tooth"],
    ["46", "P", "not-on-this-tooth"],
    ["16", "MM", "twice"],
    ["16", "LP", "twice"],
  ])("of %s, written %j, are refused: %s", (fdi, text, error) => {
    expect(readSurfaces(fdi, text)).toEqual({ ok: false, error });
  });

  test("come out the same in whatever order they are written", () => {
    const some = fc.subarray(Array.from("MODBL"), { minLength: 1 });
    const shuffled = some.chain((all) =>
      fc.shuffledSubarray(all, { minLength: all.length }).map((mixed) => [all, mixed] as const),
    );
    fc.assert(
      fc.property(shuffled, ([all, mixed]) => {
        expect(readSurfaces("36", mixed.join(""))).toEqual({ ok: true, surfaces: all.join("") });
      }),
    );
  });
});
