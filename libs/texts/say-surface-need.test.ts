import { describe, expect, test } from "@jest/globals";
import {
  listSurfaceNeeds,
  surfaceNeedCodes,
  surfaceNeedSources,
  type SealedSurface,
} from "#domain";
import { languages } from "./format.ts";
import { saySurfaceNeed, surfaceNeedTexts } from "./say-surface-need.ts";

const surface: SealedSurface = {
  sealedOn: "2026-03-02",
  coated: true,
  provisional: "resin",
  separated: true,
  provisionalCement: { name: "Some Temp", contents: [] },
  contaminated: [],
};
const unknown = { provisionalCement: null, separated: false };
const eugenol = { name: "Some Temp", contents: ["eugenol" as const] };
const needs = [
  ...listSurfaceNeeds({ ...surface, contaminated: ["blood"] }, "2026-03-09"),
  ...listSurfaceNeeds({ ...surface, contaminated: ["saliva"], coated: false }, "2026-04-09"),
  ...listSurfaceNeeds({ ...surface, provisionalCement: eugenol }, "2026-09-09"),
  ...listSurfaceNeeds({ ...surface, ...unknown }, "2026-03-09"),
  ...listSurfaceNeeds({ ...surface, contaminated: ["blood", "saliva"] }, "2026-03-09"),
];

describe.each(languages)("what a surface needs, in %s", (language) => {
  test("is a sentence for everything that it can need, with where that comes from", () => {
    expect(new Set(needs.map(({ code }) => code)).size).toBe(surfaceNeedCodes.length);
    for (const need of needs) {
      const { title, sentence, source } = saySurfaceNeed(language, need);
      expect(title).toMatch(/^\p{Lu}.{2,29}$/u);
      expect(sentence).toMatch(/^[\p{L}\p{N}].*\.$/su);
      expect(sentence).not.toMatch(/[{}[\]|]|undefined|null|NaN|  /);
      expect(source).toMatch(/\w/);
    }
  });

  test("has no text that nothing can say, and none twice", () => {
    const { needs: texts, sources } = surfaceNeedTexts[language];
    expect(Object.keys(texts).sort()).toEqual([...surfaceNeedCodes].sort());
    expect(Object.keys(sources).sort()).toEqual([...surfaceNeedSources].sort());
    const said = Object.values(texts).map((text) => JSON.stringify(text));
    expect(new Set(said).size).toBe(surfaceNeedCodes.length);
  });
});
