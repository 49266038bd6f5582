import bwipjs from "bwip-js/node";
import { describe, expect, test } from "@jest/globals";
import { hibcCheckCharacter, readLabel, type LabelResult } from "./index.ts";

function read(raw: string | string[]): LabelResult {
  return readLabel(raw, { today: "2026-06-15", associations: "enforce" });
}

/** The symbol for data without their check character. */
function checked(data: string): string {
  return data + (hibcCheckCharacter(data) ?? "");
}

describe("the HIBC check character", () => {
  // Samples of ANSI/HIBC 2.6-2016: figure 1, figure 5, 2.2.1.1, 2.3.2, 2.3.2.4 and 4.3.2.
  test.each([
    "+A123BJC5D6E71G",
    "+$$52001510X3GD",
    "+A99912345/$$52001510X33",
    "+A99912345/$$52001510X3/16D20111212/S77DEFG457",
    "+A99912345/$10X3/16D20111231/14D202001313",
    "+A99912349/$10X3/16D20111231/14D20200131/Q500Z",
    "+J123AQ3451/$$3231231BC34567/S4012R",
    "+$$848GQ",
  ])("of the published sample %s is its last", (sample) => {
    expect(hibcCheckCharacter(sample.slice(0, -1))).toBe(sample.slice(-1));
    expect(read(sample).ok).toBe(true);
  });

  test.each(["+a", "+A_", "\u00e9"])("of %j does not exist", (data) => {
    expect(hibcCheckCharacter(data)).toBeUndefined();
  });

  test("agrees with the one that bwip-js demands", () => {
    for (let number = 0; number < 43; number += 1) {
      const raw = checked(`+A99912345/$LOT${number}`);
      const text = raw.slice(1);
      const draw = (data: string) => bwipjs.raw("hibccode39", data, "validatecheck");
      expect(draw(text)).toHaveLength(1);
      const wrong = text.slice(0, -1) + (text.endsWith("0") ? "1" : "0");
      expect(() => draw(wrong)).toThrow("heck digit");
    }
  });

  test("may be a space, a plus or a slash, and is never trimmed or split at", () => {
    const found = new Set<string>();
    for (let number = 0; number < 43; number += 1) {
      const raw = checked(`+A99912345/$LOT${number}`);
      found.add(raw.slice(-1));
      expect(read(`${raw}\r\n`)).toMatchObject({
        ok: true,
        fields: { lot: `LOT${number}`, check_character: raw.slice(-1) },
      });
    }
    expect([...found]).toEqual(expect.arrayContaining([" ", "+", "/", "$", "%"]));
  });
});

describe("the secondary data of an HIBC label", () => {
  // ANSI/HIBC 2.6-2016 2.2.1, table of formats.
  test.each([
    ["$0228X", { lot: "0228X" }],
    ["$9LOT", { lot: "9LOT" }],
    ["$+SER", { serial: "SER" }],
    ["$$1228X", { expiry: { date: "2028-12-31", precision: "month" }, lot: "X" }],
    ["$$0228X", { expiry: { date: "2028-02-29", precision: "month" }, lot: "X" }],
    ["$$2022928X", { expiry: { date: "2028-02-29", precision: "day" }, lot: "X" }],
    ["$$3280229X", { expiry: { date: "2028-02-29", precision: "day" }, lot: "X" }],
    ["$$428022923X", { expiry: { date: "2028-02-29", precision: "hour", time: "23Z" }, lot: "X" }],
    ["$$528060X", { expiry: { date: "2028-02-29", precision: "day" }, lot: "X" }],
    ["$$528366X", { expiry: { date: "2028-12-31", precision: "day" }, lot: "X" }],
    ["$$62806000X", { expiry: { date: "2028-02-29", precision: "hour", time: "00Z" }, lot: "X" }],
    ["$$7X", { lot: "X" }],
    ["$$824X", { quantity: 24, lot: "X" }],
    ["$$8247X", { quantity: 24, lot: "X" }],
    ["$$900048", { quantity: 48 }],
    [
      "$$9000480928X",
      { quantity: 48, expiry: { date: "2028-09-30", precision: "month" }, lot: "X" },
    ],
    ["$$+7SER", { serial: "SER" }],
    ["$$+3280229SER", { expiry: { date: "2028-02-29", precision: "day" }, serial: "SER" }],
    ["$$3280229", { expiry: { date: "2028-02-29", precision: "day" } }],
    ["28060", { expiry: { date: "2028-02-29", precision: "day" } }],
    ["28060X", { expiry: { date: "2028-02-29", precision: "day" }, lot: "X" }],
    ["$/S1", { serial: "1" }],
    ["$$7/S1/Q7", { serial: "1", quantity: 7 }],
    [
      "$X/S1/14D20280229/16D20260101/Q00500",
      {
        lot: "X",
        serial: "1",
        expiry: { date: "2028-02-29", precision: "day" },
        production: { date: "2026-01-01", precision: "day" },
        quantity: 500,
      },
    ],
    ["$$3280229X/14D20280229", { expiry: { date: "2028-02-29", precision: "day" }, lot: "X" }],
    ["$$0228X/14D20280229", { expiry: { date: "2028-02-29", precision: "day" }, lot: "X" }],
  ])("%s means %j", (secondary, data) => {
    const device = { lic: "A999", pcn: "1234", unit_of_measure: 5 };
    const concatenated = checked(`+A99912345/${secondary}`);
    expect(read(concatenated)).toMatchObject({ ok: true });
    const result = read(concatenated);
    expect(result.ok && result.fields).toEqual({
      structure: "concatenated",
      ...device,
      ...data,
      check_character: concatenated.slice(-1),
    });
    const linked = checked(`+${secondary}G`);
    const alone = read(linked);
    expect(alone.ok && alone.fields).toEqual({
      structure: "secondary",
      ...data,
      link_character: "G",
      check_character: linked.slice(-1),
    });
  });

  // Each symbol has a right check character; the span between the markers is the one named.
  test.each([
    ["+A99912345/<Q100>", "invalid_structure"],
    ["+A99912345/<S4012>", "invalid_structure"],
    ["+A99912345/<X>", "invalid_structure"],
    ["+A99912345/$$<>", "invalid_structure"],
    ["+A99912345/$$<X>", "invalid_structure"],
    ["+A99912345/$<>", "empty_value"],
    ["+A99912345/$$7<>", "empty_value"],
    ["+A99912345/$+<>/S1", "empty_value"],
    ["+A99912345/$$+3280229<>", "empty_value"],
    ["+A99912345/$X/S<>", "empty_value"],
    ["+A99912345/$X/Q<>", "empty_value"],
    ["+A99912345/$X/14D<>", "empty_value"],
    ["+A99912345/$X/<X1>", "unknown_data_identifier"],
    ["+A99912345/$X/<>", "unknown_data_identifier"],
    ["+A99912345/$$3<2802>", "value_too_short"],
    ["+A99912345/$$9<0004>", "value_too_short"],
    ["+A99912345/$ABCDEFGHIJKLMNOPQR<ST>", "value_too_long"],
    ["+A99912345/$X/Q12345<6>", "value_too_long"],
    ["+A99912345/$X/14D20280229<1>", "value_too_long"],
    ["+A99912345/$$328<X>229X", "invalid_character"],
    ["+A99912345/$AB<.>C", "invalid_character"],
    ["+A99912345/$AB<$>C", "invalid_character"],
    ["+A99912345/$X/Q1<A>", "invalid_character"],
    ["+A99912345/$$3<280230>X", "invalid_date"],
    ["+A99912345/$$3<280200>X", "invalid_date"],
    ["+A99912345/$$<1328>X", "invalid_date"],
    ["+A99912345/$$5<27366>X", "invalid_date"],
    ["+A99912345/$$5<27000>X", "invalid_date"],
    ["+A99912345/$X/14D<20281301>", "invalid_date"],
    ["+A99912345/$$4280229<24>X", "invalid_time"],
    ["+A99912345/$$3280229X/14D<20280228>", "conflicting_duplicate"],
    ["+A99912345/$$+7SER/S<SES>", "conflicting_duplicate"],
    ["+A99912345/$$824X/Q<25>", "conflicting_duplicate"],
    ["+A9991234<A>", "invalid_structure"],
    ["+<A9995>", "invalid_structure"],
    ["+A999AB<.>45", "invalid_character"],
    ["+A999ABCDEFGHIJKLMNOPQR<S>5", "value_too_long"],
    ["<++>B-A999123", "unsupported_scheme"],
    ["<+/>EU720060FF0/O523201", "unsupported_scheme"],
  ])("in %s is %s, and the span is named", (marked, kind) => {
    const raw = checked(marked.replace(/[<>]/g, ""));
    const result = read(raw);
    expect(result).toMatchObject({ ok: false, error: { kind } });
    if (result.ok) return;
    const { at, length } = result.error;
    const found = `${raw.slice(0, at)}<${raw.slice(at, at + length)}>${raw.slice(at + length)}`;
    expect(found).toBe(marked + raw.slice(-1));
  });

  test("keeps a hyphen in lot and serial, with a warning each", () => {
    expect(read(checked("+A99912345/$AB-C/S1-2"))).toMatchObject({
      ok: true,
      fields: { lot: "AB-C", serial: "1-2" },
      warnings: [{ kind: "non_alphanumeric_lot" }, { kind: "non_alphanumeric_serial" }],
    });
  });
});

describe("an HIBC symbol", () => {
  test.each(["]C0", "]d1", "]Q1", "]A0", "]A1", "]z0", "]L0"])("is read from a %s", (id) => {
    expect(read(`${id}+A123BJC5D6E71G`)).toMatchObject({ ok: true, symbology: id });
  });

  test.each([
    ["]A3+A123BJC5D6E71", "invalid_check_character", "code39_check_stripped"],
    ["]A5a123BJC5D6E71G", "unsupported_symbology", "code39_full_ascii"],
    ["+d20109506000134352", "invalid_character", "keyboard_layout"],
  ])("damaged by the reader, %s, is refused with the cause", (raw, kind, detail) => {
    expect(read(raw)).toMatchObject({ ok: false, error: { kind, detail } });
  });

  test("is read from print, where an underscore stands for a space", () => {
    const spaced = Array.from({ length: 43 }, (_, n) => checked(`+A99912345/$LOT${n}`)).find(
      (raw) => raw.endsWith(" "),
    );
    expect(read(`*${spaced?.slice(0, -1)}_*`)).toMatchObject({
      ok: true,
      fields: { check_character: " " },
    });
    expect(read("*+A123BJC5D6E71G")).toMatchObject({ error: { kind: "invalid_structure" } });
  });

  test.each(["+", "+A", "*+*"])("cut down to %s is refused", (raw) => {
    expect(read(raw)).toMatchObject({ ok: false, error: { kind: "invalid_structure" } });
  });
});
