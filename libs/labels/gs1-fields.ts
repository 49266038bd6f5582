import type { Gs1Data } from "./gs1.ts";
import { readYymmdd } from "./label-date.ts";
import type { LabelDate, LabelFields, LabelMeasure } from "./result.ts";

type DateField = "expiry" | "production" | "packaging" | "best_before" | "sell_by";

type Slot =
  | { takes: "text"; field: "gtin" | "content_gtin" | "sscc" | "lot" | "serial" }
  | { takes: "number"; field: "quantity" | "count" }
  | { takes: "date"; field: DateField };

/** Which field an AI fills, by the AI as a number, and how. */
const SLOTS: readonly (Slot | undefined)[] = slotsByNumber([
  ["00", { takes: "text", field: "sscc" }],
  ["01", { takes: "text", field: "gtin" }],
  ["02", { takes: "text", field: "content_gtin" }],
  ["10", { takes: "text", field: "lot" }],
  ["21", { takes: "text", field: "serial" }],
  ["11", { takes: "date", field: "production" }],
  ["13", { takes: "date", field: "packaging" }],
  ["15", { takes: "date", field: "best_before" }],
  ["16", { takes: "date", field: "sell_by" }],
  ["17", { takes: "date", field: "expiry" }],
  ["7003", { takes: "date", field: "expiry" }],
  ["8008", { takes: "date", field: "production" }],
  ["30", { takes: "number", field: "quantity" }],
  ["37", { takes: "number", field: "count" }],
]);

function slotsByNumber(lines: readonly (readonly [ai: string, slot: Slot])[]) {
  const slots: (Slot | undefined)[] = Array.from({ length: 10_000 });
  for (const [ai, slot] of lines) slots[Number(ai)] = slot;
  return slots;
}

const TIME_PRECISIONS = ["day", "hour", "minute", "second"] as const;

/**
 * Answers what valid elements say in the project's own fields: GTIN, lot, serial, dates with their
 * precision, counts, measures. AIs without a field stay in the elements alone. Two elements that
 * date the same thing differently, (17) and (7003) or (11) and (8008), give the earlier date, and
 * the index of the second goes into `disagreeing` (project rule); on the same day the more precise
 * one stands. Source: GS1 General Specifications 3.2 to 3.9.
 */
export function fieldsOfElements(
  data: Gs1Data,
  currentYear: number,
  disagreeing: number[],
): LabelFields {
  const fields: LabelFields = {};
  const { elements, facts } = data;
  for (let index = 0; index < elements.length; index += 1) {
    const element = elements[index];
    const fact = facts[index];
    if (element === undefined || fact === undefined) continue;
    const { ai, value } = element;
    const slot = SLOTS[fact.number];
    if (slot === undefined) {
      if (fact.measure !== undefined) addMeasure(fields, { ai, value, ...fact.measure });
    } else if (slot.takes === "text") {
      fields[slot.field] = value;
    } else if (slot.takes === "number") {
      fields[slot.field] = Number(value);
    } else if (!agree(fields, slot.field, dateOfValue(value, currentYear))) {
      disagreeing.push(index);
    }
  }
  return fields;
}

/** Reads YYMMDD, with two digits more for each of hour, minute and second that follow. */
function dateOfValue(value: string, currentYear: number): LabelDate {
  const day = readYymmdd(value, 0, currentYear);
  if (value.length === 6) return day;
  let time = value.slice(6, 8);
  for (let at = 8; at < value.length; at += 2) time += `:${value.slice(at, at + 2)}`;
  return { date: day.date, precision: TIME_PRECISIONS[(value.length - 6) / 2] ?? "day", time };
}

/** Enters a date and answers whether it agrees with the one already there. */
function agree(fields: LabelFields, field: DateField, date: LabelDate): boolean {
  const earlier = fields[field];
  if (earlier === undefined) {
    fields[field] = date;
    return true;
  }
  if (earlier.date === date.date) {
    if (earlier.time === undefined) fields[field] = date.time === undefined ? earlier : date;
    return true;
  }
  if (date.date < earlier.date) fields[field] = date;
  return false;
}

type MeasureValue = { ai: string; value: string; unit: string; decimals: number };

function addMeasure(fields: LabelFields, measured: MeasureValue): void {
  const { ai, value, unit, decimals } = measured;
  const whole = String(Number(value.slice(0, value.length - decimals)));
  const decimal = decimals === 0 ? whole : `${whole}.${value.slice(-decimals)}`;
  const measures: LabelMeasure[] = fields.measures ?? [];
  if (!measures.some((known) => known.ai === ai)) measures.push({ ai, decimal, unit });
  fields.measures = measures;
}
