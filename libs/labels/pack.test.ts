import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import {
  hibcCheckCharacter,
  readPack,
  type PackFieldName,
  type PackOptions,
  type PackReading,
  type PackStanding,
} from "./index.ts";

/** GTINs of one item at three levels, and of two other items; check digits by hand. */
const UNIT = "09520000001070";
const BOX = "19520000001077";
const CASE = "29520000001074";
const OTHER = "09506000134352";
const GS = "\u001d";

type Labels = (string | string[])[];

function read(labels: Labels, options: Partial<PackOptions> = {}): PackReading {
  return readPack(labels, { today: "2026-06-15", ...options });
}

function checked(data: string): string {
  return data + (hibcCheckCharacter(data) ?? "");
}

const standings = ({ lines }: PackReading) =>
  Object.fromEntries(lines.map(({ field, standing }) => [field, standing]));

describe("the labels of one pack", () => {
  test("say together what each says alone", () => {
    const reading = read([`]E09520000001070`, `]d201${UNIT}1728033110L1`]);
    expect(reading).toMatchObject({
      ok: true,
      items: [
        {
          labels: [0, 1],
          levels: [{ identifier: { scheme: "gs1-gtin", value: UNIT }, level: 0, labels: [0, 1] }],
          fields: { lot: "L1", expiry: { date: "2028-03-31", precision: "day" } },
        },
      ],
      conflicts: [],
    });
    expect(reading.lines).toEqual([
      { field: "identifier", standing: "agreed", values: [UNIT, UNIT] },
      { field: "lot", standing: "single", values: [null, "L1"] },
      { field: "expiry", standing: "single", values: [null, "2028-03-31"] },
    ]);
  });

  test("fill each other's gaps: the box has the lot, the bottle the date", () => {
    const { ok, items } = read([`]d201${BOX}10L1`, `]d201${UNIT}17280331`]);
    expect(ok).toBe(true);
    expect(items[0]?.fields).toEqual({
      lot: "L1",
      expiry: { date: "2028-03-31", precision: "day" },
    });
  });

  test("are compared symbol by symbol where a label has several", () => {
    const { ok, items } = read([[`]C101${UNIT}`, "]C11728033110L1"], `(01)${UNIT}(10)L1`]);
    expect([ok, items[0]?.fields.lot]).toEqual([true, "L1"]);
  });

  test("that name no item at all are one pack still", () => {
    const { ok, items } = read(["]C11728033110L1", "]C110L1"]);
    expect([ok, items.length, items[0]?.levels]).toEqual([true, 1, []]);
  });

  test("keep the error of the one that was refused", () => {
    const { ok, labels, items, lines } = read([`]d201${UNIT}10L1`, "]d20109520000001071", ""]);
    expect(ok).toBe(false);
    expect(labels.map((label) => (label.ok ? null : label.error.kind))).toEqual([
      null,
      "invalid_check_digit",
      "empty_input",
    ]);
    expect(items.map((item) => item.labels)).toEqual([[0]]);
    expect(lines[1]).toEqual({ field: "lot", standing: "single", values: ["L1", null, null] });
  });

  test("are none, or absurdly many", () => {
    expect(read([])).toEqual({ ok: false, labels: [], items: [], lines: [], conflicts: [] });
    const many = read(Array.from({ length: 66 }, () => `]d201${UNIT}10L1`));
    expect(many.labels.filter(({ ok }) => ok)).toHaveLength(64);
    expect(many).toMatchObject({ ok: false, conflicts: [] });
  });
});

describe("how the labels of a pack stand to each other", () => {
  const cases: [string, Labels, Partial<Record<PackFieldName, PackStanding>>][] = [
    [
      "lots that differ in one letter",
      [`]d201${UNIT}10DF-118O`, `]d201${UNIT}10DF-1180`],
      { identifier: "agreed", lot: "conflict" },
    ],
    [
      "lots that differ in their case, or between levels",
      [`]d201${BOX}10Ab1`, `]d201${UNIT}10AB1`],
      { identifier: "levels", lot: "conflict" },
    ],
    [
      "a month and a day within it",
      [`]d201${UNIT}17280300`, `]d201${UNIT}17280315`],
      { identifier: "agreed", expiry: "agreed" },
    ],
    [
      "a month and a day outside of it",
      [`]d201${UNIT}17280300`, `]d201${UNIT}17280401`],
      { identifier: "agreed", expiry: "conflict" },
    ],
    [
      "a month and two days within it",
      [`]d201${UNIT}17280300`, `]d201${UNIT}17280315`, `]d201${UNIT}17280316`],
      { identifier: "agreed", expiry: "conflict" },
    ],
    [
      "a day and an hour of it",
      [`]d201${UNIT}17280315`, `]d201${UNIT}70032803151200`],
      { identifier: "agreed", expiry: "agreed" },
    ],
    [
      "serials of two levels",
      [`]d201${BOX}21B`, `]d201${UNIT}21A`],
      { identifier: "levels", serial: "levels" },
    ],
    [
      "serials of two bottles",
      [`]d201${UNIT}21A`, `]d201${UNIT}21B`],
      { identifier: "agreed", serial: "conflict" },
    ],
    [
      "a serial beside no item",
      [`]d201${UNIT}21A`, "]C121B"],
      { identifier: "single", serial: "conflict" },
    ],
    [
      "production dates of two levels, and of one",
      [`]d201${BOX}11260301`, `]d201${UNIT}11260201`, `]d201${CASE}11260401`],
      { identifier: "levels", production: "levels" },
    ],
    [
      "production dates of one level",
      [`]d201${UNIT}11260301`, `]d201${UNIT}11260201`],
      { identifier: "agreed", production: "conflict" },
    ],
    [
      "two items, each with its own lot",
      [`]d201${UNIT}10L1`, `]d201${OTHER}10L2`],
      { identifier: "conflict", lot: "items" },
    ],
    [
      "two items, one of which contradicts itself",
      [`]d201${UNIT}10L1`, `]d201${OTHER}10L2`, `]d201${BOX}10L3`],
      { identifier: "conflict", lot: "conflict" },
    ],
    [
      "a logistic unit and what is in it",
      [`]d200106141412345678908${"02"}${UNIT}3712${GS}10L1`, `]d201${UNIT}10L1`],
      { identifier: "single", lot: "agreed" },
    ],
    [
      "HIBC units of measure, one date without its day",
      [checked("+A999HC11/$$0328L1"), checked("+A999HC10/$$3280331L1")],
      { identifier: "levels", lot: "agreed", expiry: "agreed" },
    ],
    [
      "HIBC products of one labeler",
      [checked("+A999HC10/$L1"), checked("+A999HD10/$L1")],
      { identifier: "conflict", lot: "agreed" },
    ],
    [
      "a HIBC secondary symbol and its primary",
      ["+A999HC10M", checked("+$L1M")],
      { identifier: "single", lot: "single" },
    ],
    [
      "a HIBC secondary symbol of another primary",
      ["+A999HC10M", checked("+$L1N")],
      { identifier: "conflict", lot: "single" },
    ],
    [
      "a GTIN and a HIBC of which nobody knows that they are one item's",
      [`]d201${UNIT}10L1`, checked("+A999HC10/$L1")],
      { identifier: "conflict", lot: "agreed" },
    ],
    [
      "pharmacy product numbers",
      ["111234567842", "110375286414"].map((ppn) => `[)>\u001e06${GS}9N${ppn}\u001e\u0004`),
      { identifier: "conflict" },
    ],
  ];
  test.each(cases)("%s", (_, labels, expected) => {
    const reading = read(labels);
    expect(standings(reading)).toEqual(expected);
    const conflicting = Object.entries(expected).filter(([, standing]) => standing === "conflict");
    expect(reading.conflicts.map(({ field }) => field)).toEqual(conflicting.map(([name]) => name));
    expect(reading.ok).toBe(conflicting.length === 0);
  });

  test("never has a lot picked from two", () => {
    const { items } = read([`]d201${UNIT}10L1`, `]d201${UNIT}10L2`, `]d201${UNIT}10L1`]);
    expect(items[0]?.fields).toEqual({});
  });

  test("has the earlier date proposed where a month holds a day", () => {
    const { items } = read([`]d201${UNIT}17280300`, `]d201${BOX}17280315`]);
    expect(items[0]?.fields.expiry).toEqual({ date: "2028-03-15", precision: "day" });
  });

  test("has the levels listed from the unit upwards, each with what is its own", () => {
    const [item] = read([`]d201${BOX}21B`, `]d201${UNIT}1126020021A`]).items;
    expect(item?.levels).toEqual([
      {
        identifier: { scheme: "gs1-gtin", value: UNIT },
        level: 0,
        labels: [1],
        serial: "A",
        production: { date: "2026-02-28", precision: "month" },
      },
      { identifier: { scheme: "gs1-gtin", value: BOX }, level: 1, labels: [0], serial: "B" },
    ]);
    expect(item?.fields).toEqual({ production: { date: "2026-02-28", precision: "month" } });
  });

  test("has the items of a kit told apart, and what names none kept apart from them", () => {
    const kit = [`]d201${UNIT}10L1`, "]C110L9", `]d201${OTHER}10L2`, `]d201${BOX}10L1`];
    expect(read(kit).items.map(({ labels, fields }) => [labels, fields.lot])).toEqual([
      [[0, 3], "L1"],
      [[1], "L9"],
      [[2], "L2"],
    ]);
  });

  test("follows the catalogue, which knows identifiers of one item that do not look it", () => {
    const labels = [`]d201${BOX}10L1`, checked("+A999HC10/$L1"), `]E0${UNIT.slice(1)}`];
    const known: Record<string, string> = { [UNIT]: "cement", A999HC10: "cement" };
    const itemOf: PackOptions["itemOf"] = ({ value }) => known[value];
    expect(standings(read(labels))).toMatchObject({ identifier: "conflict" });
    expect(standings(read(labels, { itemOf }))).toEqual({ identifier: "levels", lot: "agreed" });
  });
});

describe("the order of the labels", () => {
  const part = fc.constantFrom(
    "",
    "10L1",
    "10L2",
    "17280300",
    "17280315",
    "21A",
    "21B",
    "11260201",
  );
  const label = fc
    .tuple(fc.constantFrom(UNIT, BOX, CASE, OTHER, ""), part, part)
    .map(([gtin, one, two]) => {
      const key = gtin === "" ? "" : `01${gtin}`;
      return `]d2${key}${one}${one.length < 8 && one !== "" ? GS : ""}${two}`;
    });
  const hibc = fc.constantFrom("+A999HC10M", checked("+$L1M"), checked("+$L2N"), "+A999HC11N");
  const pack = fc.array(fc.oneof({ weight: 4, arbitrary: label }, hibc), { maxLength: 5 });

  /** What a pack says but for the places of its labels. */
  function withoutPlaces({ ok, items, lines }: PackReading): object {
    const bare = items.map(({ levels, fields }) =>
      JSON.stringify({ fields, levels: levels.map(({ labels: _labels, ...level }) => level) }),
    );
    const sorted = lines.map(({ field, standing, values }) => ({
      field,
      standing,
      values: values.map(String).sort(),
    }));
    return { ok, items: bare.sort(), lines: sorted };
  }

  test("makes no difference", () => {
    const shuffled = pack.chain((labels) =>
      fc.tuple(
        fc.constant(labels),
        fc.shuffledSubarray(labels, { minLength: labels.length, maxLength: labels.length }),
      ),
    );
    fc.assert(
      fc.property(shuffled, fc.boolean(), ([labels, other], isKnown) => {
        const options: Partial<PackOptions> = isKnown
          ? { itemOf: ({ scheme, value }) => (scheme === "hibc" ? "x" : value === BOX ? "x" : "y") }
          : {};
        expect(withoutPlaces(read(other, options))).toEqual(withoutPlaces(read(labels, options)));
      }),
      { numRuns: 3000 },
    );
  });
});
