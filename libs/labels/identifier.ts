import type { LabelFields } from "./result.ts";

/** A device identifier as a catalogue keeps it: who issued it, and its normalised text. */
export type DeviceIdentifier = { scheme: "gs1-gtin" | "hibc" | "ppn"; value: string };

/**
 * Answers the device identifier (UDI-DI) that the fields of a label name, or undefined when they
 * name none: a lone secondary symbol, or a logistic unit, whose content is not the unit itself. A
 * GTIN keeps its 14 digits; HIBC is labeler code, product number and unit-of-measure digit in one.
 * Source: FDA, UDI formats by FDA-accredited issuing agency, v1.3.
 */
export function identifierOf(fields: LabelFields): DeviceIdentifier | undefined {
  const { gtin, lic, pcn, unit_of_measure: unit, ppn } = fields;
  if (gtin !== undefined) return { scheme: "gs1-gtin", value: gtin };
  if (lic !== undefined && pcn !== undefined && unit !== undefined) {
    return { scheme: "hibc", value: `${lic}${pcn}${unit}` };
  }
  return ppn === undefined ? undefined : { scheme: "ppn", value: ppn };
}
