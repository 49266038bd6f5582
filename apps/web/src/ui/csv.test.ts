import { expect, test } from "@jest/globals";
import { writeCsv } from "./csv.ts";

const columns = [
  { key: "lot", label: "Lot", show: () => null, value: (row: { lot: string }) => row.lot },
  { key: "tap", label: "Tap", show: () => null },
  {
    key: "length",
    label: "Length",
    show: () => null,
    value: (row: { lot: string }) => row.lot.length,
  },
];

test("a CSV has the columns that have values, quoted as RFC 4180 says", () => {
  expect(writeCsv(columns, [{ lot: 'A,"7"' }, { lot: "B" }])).toBe(
    '\u{feff}Lot,Length\r\n"A,""7""",5\r\nB,1\r\n',
  );
});

test("a text that a spreadsheet would compute is made harmless", () => {
  for (const lot of ["=1+1", "+1", "-1", "@A1"]) {
    expect(writeCsv(columns, [{ lot }])).toContain(`'${lot}`);
  }
});
