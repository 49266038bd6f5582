import type { LabelDate, LabelError, LabelFields } from "./result.ts";

/** A value for a field, and where in the raw text it stands. */
export type Placed<Value> = { value: Value; at: number; length: number };

const PRECISIONS = ["month", "day", "hour", "minute", "second"];

type PlainField = "gtin" | "ppn" | "lot" | "serial" | "quantity";

/**
 * Enters a value into a field. Answers `conflicting_duplicate` when the field already holds another
 * one; equal repeats are fine. Project rule, after GS1 General Specifications 4.13.
 */
export function enterValue<Field extends PlainField>(
  fields: LabelFields,
  field: Field,
  { value, at, length }: Placed<NonNullable<LabelFields[Field]>>,
): LabelError | undefined {
  const earlier = fields[field];
  if (earlier !== undefined && earlier !== value) {
    return { kind: "conflicting_duplicate", at, length };
  }
  fields[field] = value;
  return undefined;
}

/**
 * Enters a date into a field. Answers `conflicting_duplicate` when the field already holds another
 * day; of two that name the same day the more precise one stays. Project rule.
 */
export function enterDate(
  fields: LabelFields,
  field: "expiry" | "production",
  { value, at, length }: Placed<LabelDate>,
): LabelError | undefined {
  const earlier = fields[field];
  if (earlier === undefined) {
    fields[field] = value;
    return undefined;
  }
  const bothTimed = earlier.time !== undefined && value.time !== undefined;
  if (earlier.date !== value.date || (bothTimed && earlier.time !== value.time)) {
    return { kind: "conflicting_duplicate", at, length };
  }
  if (PRECISIONS.indexOf(value.precision) > PRECISIONS.indexOf(earlier.precision)) {
    fields[field] = value;
  }
  return undefined;
}

const PLAIN_FIELDS = ["gtin", "ppn", "lot", "serial", "quantity"] as const;
const DATE_FIELDS = ["expiry", "production"] as const;

/**
 * Enters what another scan of the same label says: identifiers, lot, serial, quantity, dates.
 * Answers `conflicting_duplicate` over the `length` of that scan when the two contradict each
 * other. Project rule.
 */
export function mergeFields(
  fields: LabelFields,
  further: LabelFields,
  length: number,
): LabelError | undefined {
  for (const field of PLAIN_FIELDS) {
    const value = further[field];
    if (value === undefined) continue;
    const fault = enterValue(fields, field, { value, at: 0, length });
    if (fault !== undefined) return fault;
  }
  for (const field of DATE_FIELDS) {
    const value = further[field];
    if (value === undefined) continue;
    const fault = enterDate(fields, field, { value, at: 0, length });
    if (fault !== undefined) return fault;
  }
  return undefined;
}
