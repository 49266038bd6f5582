import { existsSync } from "node:fs";
import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import {
  aPlainProduct,
  aProduct,
  aStep,
  aTechnique,
  aTray,
  anItem,
  bondNorth,
  bondStep,
  checkedAt,
  etchStep,
  onShelf,
  primerNorth,
  primeStep,
  someSettings,
} from "../facts.fixture.ts";
import { findingCodes, type TrayFacts, type TrayItemFacts } from "../facts.ts";
import { troubledTrays } from "../troubled-trays.fixture.ts";
import { lampB } from "../troubled-visits.fixture.ts";
import {
  contents,
  findingLevels,
  productKinds,
  provisionalKinds,
  solvents,
  strategies,
  toothModes,
} from "../vocabulary.ts";
import { allChecks } from "./all-checks.ts";
import { checkTray } from "./check-tray.ts";

const anyTooth = { modes: null, provisional: null, undercut: null };

function someVisits(): fc.Arbitrary<Pick<TrayFacts, "teeth" | "light" | "patient">> {
  const tooth = fc.record({
    tooth: fc.constantFrom("16", "17"),
    mode: fc.option(fc.constantFrom(...toothModes)),
    provisional: fc.constantFrom(...provisionalKinds),
    undercut: fc.boolean(),
  });
  const light = fc.option(
    fc.constantFrom(lampB, { ...lampB, readOn: null }, { ...lampB, table: [] }),
  );
  const allergies = fc.subarray([...contents].slice(0, 2));
  const teeth = fc.uniqueArray(tooth, { minLength: 1, selector: (one) => one.tooth });
  return fc.record({ teeth, light, patient: fc.record({ allergies }) });
}

/** Trays of every kind of trouble, built from few enough parts that they meet each other. */
function someTrays(): fc.Arbitrary<TrayFacts> {
  const day = fc.constantFrom("2026-11-24", "2026-11-25", "2026-12-01", "2026-12-02", "2027-06-30");
  const product = fc.record({
    id: fc.constantFrom("a", "b", "c"),
    kind: fc.constantFrom(...productKinds.slice(0, 6)),
    solvents: fc.option(fc.subarray([...solvents])),
    strategy: fc.option(fc.constantFrom(...strategies)),
    system: fc.option(fc.constantFrom({ id: "n", name: "North" }, { id: "s", name: "South" })),
    confirmed: fc.boolean(),
    inUseLife: fc.option(fc.constant({ count: 14, unit: "day" as const })),
    airDrySeconds: fc.option(fc.nat(12)),
    contents: fc.subarray([...contents].slice(0, 2)),
    radiantExposureJCm2: fc.option(fc.constantFrom(8, 16)),
    warmUpMinutes: fc.option(fc.constantFrom(5, 30)),
  });
  const container = fc.record({
    useBy: fc.option(day.map((date) => ({ date, precision: "day" as const }))),
    openedOn: fc.option(day),
    state: fc.constantFrom("sealed", "open", "empty", "quarantined"),
  });
  const item = fc.record({
    product: fc.option(product, { freq: 8 }),
    container: fc.option(container, { freq: 8 }),
    stepKey: fc.option(fc.constantFrom("etchant", "primer", "adhesive", "gone"), { freq: 1 }),
    other: fc.boolean(),
    left: fc.option(fc.constantFrom("2026-11-25T08:40:00Z", "2026-11-25T08:58:00Z")),
  });
  const items = fc.array(item, { maxLength: 6 }).map((drawn) =>
    drawn.map((one, index): TrayItemFacts => {
      const made = anItem(aProduct(one.product ?? {}), {
        id: `item-${index}`,
        stepKey: one.stepKey,
        container: one.container,
        leftRefrigeratorAt: one.left,
        onOtherTray: one.other && index % 3 === 0 ? { id: "t", name: "T" } : null,
      });
      return one.product === null ? { ...made, product: null, container: null } : made;
    }),
  );
  const shelf = fc
    .array(fc.tuple(product, container), { maxLength: 4 })
    .map((drawn) =>
      drawn.map(([one, held], index) =>
        onShelf(aProduct(one), { ...held, id: `shelf-${index}`, code: `C${index}` }),
      ),
    );
  const steps = fc.constantFrom(
    [primeStep, bondStep],
    [etchStep, primeStep, bondStep],
    [
      { ...etchStep, required: false },
      { ...bondStep, solventsAllowed: ["ethanol"] as const },
    ],
    [primeStep, { ...bondStep, cureSeconds: 10, lightDistanceTenthMm: 20 }],
    [{ ...etchStep, when: { ...anyTooth, modes: ["etch-and-rinse"] as const } }, bondStep],
  );
  return fc.record({ items, shelf, steps, visit: someVisits() }).map((drawn) =>
    aTray({
      items: drawn.items,
      shelf: drawn.shelf,
      ...drawn.visit,
      technique: aTechnique({ steps: drawn.steps }),
    }),
  );
}

describe("the table of checks", () => {
  test("has each code once, each in the file named as its code", () => {
    expect(allChecks.map((check) => check.code).sort()).toEqual([...findingCodes].sort());
    for (const code of findingCodes) {
      expect(existsSync(new URL(`./${code}.ts`, import.meta.url))).toBe(true);
      expect(existsSync(new URL(`./${code}.test.ts`, import.meta.url))).toBe(true);
    }
  });

  test("fixes the stops that no practice may weaken", () => {
    const fixed = allChecks.filter((check) => check.fixed).map((check) => check.code);
    expect(fixed.sort()).toEqual([
      "in-quarantine",
      "past-use-by",
      "single-use-reused",
      "withdrawn",
    ]);
    expect(allChecks.filter((check) => check.fixed && check.level !== "stop")).toEqual([]);
  });
});

describe("checking a tray", () => {
  test("a tray in order is clear and finds nothing", () => {
    expect(checkTray(aTray(), checkedAt)).toEqual({ verdict: "clear", findings: [] });
  });

  test("a one-step self-etch system is complete as one bottle", () => {
    const bottle = aProduct({ id: "one", solvents: ["water", "ethanol"], airDrySeconds: 10 });
    const technique = aTechnique({
      steps: [{ ...bondStep, airDrySeconds: 10 }, aStep("glycerin-gel"), aStep("separating-agent")],
    });
    const items = [
      anItem(bottle),
      anItem(aPlainProduct("glycerin-gel")),
      anItem(aPlainProduct("separating-agent")),
    ];
    const { verdict, findings } = checkTray(aTray({ technique, items }), checkedAt);
    expect(verdict).toBe("clear");
    expect(findings.map(({ code }) => code)).toEqual(["seal-benefit"]);
  });

  test.each(troubledTrays.map((tray) => [tray.code, tray.title, tray] as const))(
    "%s where %s",
    (code, _, { facts, reason }) => {
      const found = checkTray(facts, checkedAt).findings.filter((finding) => finding.code === code);
      expect(new Set(found.map((finding) => finding.numbers.reason ?? null))).toEqual(
        new Set([reason]),
      );
    },
  );

  test("findings come worst first, then by step, then by code", () => {
    const soon = { useBy: { date: "2026-12-10", precision: "day" as const } };
    const facts = aTray({
      items: [
        anItem(aPlainProduct("composite")),
        anItem(aProduct({ confirmed: false }), { container: { ...soon, state: "empty" } }),
        anItem({ ...primerNorth, airDrySeconds: 60, confirmed: false }, { container: soon }),
      ],
      shelf: [onShelf(bondNorth)],
    });
    expect(
      checkTray(facts, checkedAt).findings.map(({ level, code, subject }) => [
        level,
        subject.stepKey,
        code,
      ]),
    ).toEqual([
      ["stop", "primer", "drying-too-short"],
      ["stop", "adhesive", "not-available"],
      ["stop", null, "wrong-kind"],
      ["caution", "primer", "short-dated"],
      ["caution", "primer", "unconfirmed"],
      ["caution", "adhesive", "short-dated"],
      ["caution", "adhesive", "unconfirmed"],
    ]);
  });

  test("the verdict is the worst finding, and a note leaves the tray clear", () => {
    fc.assert(
      fc.property(someTrays(), (facts) => {
        const { verdict, findings } = checkTray(facts, checkedAt);
        const worst = findingLevels.find((level) => findings.some((one) => one.level === level));
        expect(verdict).toBe(worst === undefined || worst === "info" ? "clear" : worst);
      }),
    );
  });

  test("raising makes stops of cautions and changes nothing else", () => {
    fc.assert(
      fc.property(someTrays(), fc.subarray([...findingCodes]), (facts, raised) => {
        const plain = checkTray(facts, checkedAt).findings;
        const settings = someSettings({ raised });
        const strict = checkTray({ ...facts, settings }, checkedAt).findings;
        const strictly = plain.map((one) =>
          one.level === "caution" && raised.includes(one.code)
            ? { ...one, level: "stop" as const }
            : one,
        );
        expect(new Set(strict)).toEqual(new Set(strictly));
        expect(strict).toHaveLength(plain.length);
      }),
    );
  });

  test("the same facts give the same answer, and nothing in them is changed", () => {
    fc.assert(
      fc.property(someTrays(), (facts) => {
        const before = structuredClone(facts);
        const first = checkTray(facts, checkedAt);
        expect(checkTray(structuredClone(facts), checkedAt)).toEqual(first);
        expect(facts).toEqual(before);
      }),
    );
  });

  test("neither the order of scanning nor that of the shelf matters", () => {
    const shuffled = someTrays().chain((facts) =>
      fc.record({
        facts: fc.constant(facts),
        items: fc.shuffledSubarray([...facts.items], { minLength: facts.items.length }),
        shelf: fc.shuffledSubarray([...facts.shelf], { minLength: facts.shelf.length }),
      }),
    );
    fc.assert(
      fc.property(shuffled, ({ facts, items, shelf }) => {
        expect(checkTray({ ...facts, items, shelf }, checkedAt)).toEqual(
          checkTray(facts, checkedAt),
        );
      }),
    );
  });

  test("one more item turns no stop clear, unless it fills a place that was empty", () => {
    let filling = 0;
    let others = 0;
    fc.assert(
      fc.property(someTrays(), (facts) => {
        const [added, ...items] = facts.items;
        if (added === undefined) return;
        const before = checkTray({ ...facts, items }, checkedAt);
        if (before.verdict !== "stop") return;
        const after = checkTray(facts, checkedAt);
        const wasMissing = before.findings.some((one) => one.code === "missing");
        // An optional etch is a place, too: filling it decides whether dentin is etched.
        const etches = added.product?.kind === "etchant" || added.stepKey === "etchant";
        if (wasMissing || etches) filling += 1;
        else {
          others += 1;
          expect(after.verdict).toBe("stop");
        }
      }),
      { numRuns: 1000 },
    );
    expect(filling).toBeGreaterThan(0);
    expect(others).toBeGreaterThan(0);
  });

  test("an instant or a zone that does not exist is refused, not guessed", () => {
    expect(() => checkTray(aTray(), "now")).toThrow(RangeError);
    expect(() => checkTray(aTray({ appointmentAt: "" }), checkedAt)).toThrow(RangeError);
    expect(() => checkTray(aTray({ timeZone: "Mars/Olympus" }), checkedAt)).toThrow(RangeError);
  });
});
