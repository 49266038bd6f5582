import { saveFile } from "./save-file.ts";
import type { Column } from "./column.ts";

// A spreadsheet would compute a text that begins so.
const formula = /^[=+\-@\t\r]/;

function writeCell(value: string | number | null): string {
  if (value === null) return "";
  if (typeof value === "number") return String(value);
  const text = formula.test(value) ? `'${value}` : value;
  return /[",\n\r]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Rows as CSV (RFC 4180) for a spreadsheet: a byte order mark first, formulas made harmless. */
export function writeCsv<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string {
  const written = columns.filter((column) => column.value !== undefined);
  const head = written.map((column) => writeCell(column.label)).join(",");
  const lines = rows.map((row) =>
    written.map((column) => writeCell(column.value?.(row) ?? null)).join(","),
  );
  return `\u{feff}${[head, ...lines].join("\r\n")}\r\n`;
}

/** Lets the browser save the rows as a file. */
export function saveCsv<Row>(
  name: string,
  columns: readonly Column<Row>[],
  rows: readonly Row[],
): void {
  const file = new Blob([writeCsv(columns, rows)], { type: "text/csv;charset=utf-8" });
  saveFile(file, `${name}.csv`);
}
