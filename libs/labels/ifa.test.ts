import { describe, expect, test } from "@jest/globals";
import { ppnCheckDigits } from "./ifa.ts";
import { identifierOf, readLabel, type LabelResult } from "./index.ts";

const GS = "\u001d";
const RS = "\u001e";
const EOT = "\u0004";

function read(raw: string | string[]): LabelResult {
  return readLabel(raw, { today: "2026-06-15" });
}

function message(...segments: string[]): string {
  return `[)>${RS}06${GS}${segments.join(GS)}${RS}${EOT}`;
}

describe("a pharmacy product number", () => {
  // Two published numbers of the IFA coding system; the procedure is from memory.
  test.each(["111234567842", "110375286414"])("%s ends in its check digits", (ppn) => {
    expect(ppnCheckDigits(ppn.slice(0, -2))).toBe(ppn.slice(-2));
    const result = read(message(`9N${ppn}`));
    expect(result).toMatchObject({ ok: true, scheme: "ifa-ppn", fields: { ppn } });
    expect(result.ok && identifierOf(result.fields)).toEqual({ scheme: "ppn", value: ppn });
  });
});

describe("a message of ISO/IEC 15434", () => {
  const PPN = "9N111234567842";

  test("gives lot, serial, expiry without a day and production", () => {
    const raw = message(PPN, "1TLOT9", "D271200", "16D20260101", "SSER1");
    const result = read(raw);
    expect(result.ok && result.fields).toEqual({
      ppn: "111234567842",
      lot: "LOT9",
      serial: "SER1",
      expiry: { date: "2027-12-31", precision: "month" },
      production: { date: "2026-01-01", precision: "day" },
    });
  });

  test("names the product by a GTIN as well", () => {
    expect(read(message("8P09506000134352", "1TA"))).toMatchObject({
      fields: { gtin: "09506000134352", lot: "A" },
    });
  });

  test("is read with its control characters written out", () => {
    const raw = `[)>{RS}06{GS}${PPN}{GS}1TLOT9{RS}{EOT}`;
    expect(read(raw)).toMatchObject({ ok: true, fields: { lot: "LOT9" }, raw });
    const bad = `[)>{RS}06{GS}${PPN}{GS}D271301{RS}{EOT}`;
    expect(read(bad)).toMatchObject({
      error: { kind: "invalid_date", at: bad.indexOf("271301"), length: 6 },
    });
  });

  test("is put together from two scans, and refused when they contradict", () => {
    expect(read([message(PPN), message(PPN, "1TA")])).toMatchObject({ fields: { lot: "A" } });
    expect(read([message(PPN, "1TB"), message(PPN, "1TA")])).toMatchObject({
      error: { kind: "conflicting_duplicate", part: 1 },
    });
  });

  test.each([
    [message("9N111234567843"), "invalid_check_digit"],
    [message("9N1112345678-2"), "invalid_character"],
    [message("9N1142"), "value_too_short"],
    [message(`9N${"1".repeat(23)}`), "value_too_long"],
    [message("9N"), "empty_value"],
    [message("1TA"), "invalid_structure"],
    [message(PPN, "25PABC"), "unknown_data_identifier"],
    [message(PPN, ""), "unknown_data_identifier"],
    [message(PPN, "1TA B"), "invalid_character"],
    [message(PPN, `1T${"A".repeat(21)}`), "value_too_long"],
    [message(PPN, "D270230"), "invalid_date"],
    [message(PPN, "D2702"), "value_too_short"],
    [message(PPN, "D2702011"), "value_too_long"],
    [message(PPN, "1TA", "1TB"), "conflicting_duplicate"],
    [message("8P09506000134353"), "invalid_check_digit"],
    [message(PPN).slice(0, -1), "invalid_structure"],
    ["[)>", "invalid_structure"],
    ["[)>06", "invalid_structure"],
    [`[)>${RS}06${GS}`, "invalid_structure"],
    [`[)>${RS}05${GS}0109506000134352${RS}${EOT}`, "unsupported_scheme"],
  ])("%j is refused with %s", (raw, kind) => {
    expect(read(raw)).toMatchObject({ ok: false, error: { kind } });
  });
});
