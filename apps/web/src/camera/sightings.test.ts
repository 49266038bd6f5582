import { describe, expect, test } from "@jest/globals";
import { awayMs, Sightings } from "./sightings.ts";
import type { Sight } from "./sight.ts";

const own: Sight = { text: "CK7QW4X", part: "own" };
const pack: Sight = { text: "gs1 pack", part: "whole", lot: "A1", scheme: "gs1-gtin" };
const otherPack: Sight = { ...pack, text: "gs1 pack, serial 2" };
const hibcPack: Sight = { ...pack, text: "hibc pack", scheme: "hibc" };
const product: Sight = { text: "primary", part: "product", scheme: "hibc" };
const lot: Sight = { text: "secondary", part: "lot", lot: "A1" };
const poster: Sight = { text: "https://poster.example", part: "other" };

const anyTwo = () => new Sightings(() => true);

/** Shows the same symbols every tenth of a second, and tells what was given on in all. */
function show(sightings: Sightings, sights: readonly Sight[], [from, to]: [number, number]) {
  const given: string[] = [];
  for (let atMs = from; atMs <= to; atMs += 100) given.push(...sightings.next(sights, atMs).give);
  return given;
}

describe("a symbol in view", () => {
  test("is given on at once, and once", () => {
    const sightings = anyTwo();
    expect(sightings.next([pack], 0).give).toEqual([pack.text]);
    expect(show(sightings, [pack], [100, 60_000])).toEqual([]);
  });
  test("counts anew after three seconds out of the picture, not before", () => {
    for (const [gapMs, times] of [
      [awayMs.other, 1],
      [awayMs.other + 1, 2],
    ] as const) {
      const sightings = anyTwo();
      const given = [sightings.next([pack], 0), sightings.next([pack], gapMs)];
      expect(given.flatMap(({ give }) => give).length).toBe(times);
    }
  });
  test("with a code of the practice's own counts anew only after ten seconds", () => {
    const sightings = anyTwo();
    sightings.next([own], 0);
    expect(sightings.next([own], awayMs.own).give).toEqual([]);
    expect(sightings.next([own], 2 * awayMs.own + 1).give).toEqual([own.text]);
  });
  test("is one of several, and each goes", () => {
    expect(anyTwo().next([pack, otherPack], 0).give).toEqual([pack.text, otherPack.text]);
  });
});

describe("of the symbols on one pack", () => {
  test("the practice's own code speaks, and the maker's label beside it does not", () => {
    expect(show(anyTwo(), [pack, own], [0, 5000])).toEqual([own.text]);
  });
  test("one that names the product alone waits, and is left out for the whole label", () => {
    const sightings = anyTwo();
    expect(show(sightings, [product], [0, 500])).toEqual([]);
    expect(show(sightings, [product, pack], [600, 9000])).toEqual([pack.text]);
  });
  test("one lot told by two standards goes once", () => {
    expect(anyTwo().next([pack, hibcPack], 0).give).toEqual([pack.text]);
    const later = anyTwo();
    later.next([pack], 0);
    expect(show(later, [hibcPack, pack], [100, 5000])).toEqual([]);
  });
});

test("what comes right after a pack has gone is of the next pack", () => {
  const sightings = anyTwo();
  sightings.next([own], 0);
  expect(show(sightings, [pack], [400, 600])).toEqual([]);
  expect(show(sightings, [pack], [700, 5000])).toEqual([pack.text]);
});

describe("halves of a label", () => {
  test("go together, product first, whichever was seen first", () => {
    const sightings = anyTwo();
    expect(sightings.next([lot], 0).give).toEqual([]);
    expect(sightings.next([product], 400).give).toEqual([product.text, lot.text]);
    expect(show(sightings, [lot, product], [500, 5000])).toEqual([]);
  });
  test("go alone after a while, when the other one is not to be seen", () => {
    expect(show(anyTwo(), [product], [0, 1100])).toEqual([]);
    expect(show(anyTwo(), [product], [0, 1200])).toEqual([product.text]);
  });
  test("of several labels go nowhere, and it is said", () => {
    const second = { ...product, text: "another primary" };
    const decided = anyTwo().next([product, second, lot], 0);
    expect(decided).toEqual({ give: [], isCrowded: true });
    const misfits = new Sightings(() => false).next([product, lot], 0);
    expect(misfits).toEqual({ give: [], isCrowded: true });
  });
  test("in a photo do not wait", () => {
    expect(anyTwo().next([product], 0, true).give).toEqual([product.text]);
    expect(anyTwo().next([lot, product], 0, true).give).toEqual([product.text, lot.text]);
  });
});

test("what is no label goes only when it is all there is to see for two seconds", () => {
  expect(show(anyTwo(), [poster, pack], [0, 9000])).toEqual([pack.text]);
  expect(show(anyTwo(), [poster], [0, 1900])).toEqual([]);
  expect(show(anyTwo(), [poster], [0, 9000])).toEqual([poster.text]);
});

test("a glimpse now and then is no steady view", () => {
  const sightings = anyTwo();
  const given = [0, 900, 1800, 2700].flatMap((atMs) => sightings.next([product], atMs).give);
  expect(given).toEqual([]);
});
