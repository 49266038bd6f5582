import bwipjs from "bwip-js/node";
import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { readLabel, type LabelElement } from "./index.ts";
import { compatibleElements, validValue, withCompanions } from "./samples.fixture.ts";

/**
 * AIs on which the two do not have to agree: relations of (03) are younger than the release that
 * bwip-js follows; currencies, package types and coupons are not checked here.
 */
const APART = /^(03|391\d|393\d|7041|8110|8112)$/;

const faults = fc.option(fc.tuple(fc.nat(), fc.nat()), { freq: 2 });

/** Random labels of known AIs, most of them complete, half of them with one fault somewhere. */
const labels = fc
  .tuple(compatibleElements, fc.nat(), fc.boolean(), faults)
  .map(([elements, seed, isComplete, fault]) => {
    const whole = isComplete ? completed(elements, seed) : elements;
    return fault === null ? whole : withFault(whole, ...fault);
  })
  // Brackets in a value and spaces at its ends are dropped or ambiguous in the printed form.
  .filter((all) => all.every(({ ai, value }) => !APART.test(ai) && !/[()]|^ | $/.test(value)));

function completed(elements: LabelElement[], seed: number): LabelElement[] {
  const ais = withCompanions(elements.map(({ ai }) => ai)) ?? [];
  return ais.map((ai) => {
    const given = elements.find((element) => element.ai === ai);
    return given ?? { ai, value: fc.sample(validValue(ai), { seed, numRuns: 1 })[0] ?? "" };
  });
}

/** Exchanges, drops or adds one character. */
function withFault(elements: LabelElement[], which: number, where: number): LabelElement[] {
  return elements.map(({ ai, value }, index) => {
    if (index !== which % elements.length) return { ai, value };
    const at = where % Math.max(1, value.length);
    const character = "0123456789ABZaz-%/_ #=".charAt(where % 22);
    const kept = where % 3 === 0 ? at : at + 1;
    const added = where % 3 === 2 ? "" : character;
    return { ai, value: value.slice(0, at) + added + value.slice(kept) };
  });
}

/** The symbol drawn fastest. It holds little, which is another error than that of faulty data. */
const bcid = "databarexpandedstacked";

function passesBwip(text: string): boolean {
  try {
    bwipjs.raw({ bcid, text: text.replaceAll("^", "^094"), parse: true });
    return true;
  } catch (error) {
    return !String(error).includes("bwipp.GS1");
  }
}

describe("random labels, sound and faulty", () => {
  test("are refused if and only if bwip-js refuses them", () => {
    let sound = 0;
    let faulty = 0;
    const parameters = { numRuns: 1000, seed: 20_260_615 };
    fc.assert(
      fc.property(labels, (elements) => {
        const text = elements.map(({ ai, value }) => `(${ai})${value}`).join("");
        const { ok } = readLabel(text, { today: "2026-06-15", associations: "enforce" });
        expect([text, ok]).toEqual([text, passesBwip(text)]);
        if (ok) sound += 1;
        else faulty += 1;
      }),
      parameters,
    );
    expect(Math.min(sound, faulty)).toBeGreaterThan(200);
  });
});
