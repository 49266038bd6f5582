import type { BodyOf } from "#contracts/operations";

export type AmendmentEntry = NonNullable<BodyOf<"amendRecord">["add"]>[number];
export type AddedKind = AmendmentEntry["kind"];

/** The choice of a light that is not on the list. */
export const otherLight = "other";

/** An entry of an amendment, with what it is called while it is not signed. */
export interface Addition {
  entry: AmendmentEntry;
  name: string;
}

/** The fields of an entry as they are filled in; each kind uses some of them. */
export interface EntryFields {
  kind: AddedKind;
  stepKey: string;
  text: string;
  what: "blood" | "saliva" | "primed-again" | "dropped" | "other";
  millimetres: string;
  container: { id: string; name: string } | null;
  productId: string;
  seconds: string;
  /** Empty where none is chosen yet. */
  lightId: string;
  /** Empty for the light's first one. */
  mode: string;
  distanceTenthMm: number;
}

/** The entry that the fields make; `null` while something is missing. */
export function readEntry(fields: EntryFields): AmendmentEntry | null {
  const { kind, stepKey, what, container, productId } = fields;
  const text = fields.text.trim();
  if (kind === "note") return text === "" ? null : { kind, text };
  if (stepKey === "") return null;
  switch (kind) {
    case "deviation":
      return what === "other" && text === "" ? null : { kind, stepKey, what, text };
    case "thickness": {
      const tenthMm = readTenths(fields.millimetres);
      return tenthMm === null ? null : { kind, stepKey, tenthMm };
    }
    case "used":
      return container === null ? null : { kind, stepKey, containerId: container.id };
    case "cure":
      return readCure(fields);
    case "not-scanned":
      return productId === "" || text.length < 3
        ? null
        : { kind, stepKey, productId, reason: text };
  }
}

function readCure(fields: EntryFields): AmendmentEntry | null {
  const { stepKey, lightId, mode, distanceTenthMm } = fields;
  const seconds = Number(fields.seconds.trim());
  const isWhole = Number.isInteger(seconds) && seconds >= 1 && seconds <= 3600;
  if (!isWhole || lightId === "") return null;
  return {
    kind: "cure",
    stepKey,
    seconds,
    lightId: lightId === otherLight ? null : lightId,
    ...(mode === "" ? {} : { mode }),
    distanceTenthMm,
  };
}

/** Tenths of a millimetre of a text such as `0.6` or `0,6`; `null` for another one. */
export function readTenths(millimetres: string): number | null {
  if (!/^\d{1,2}([.,]\d)?$/.test(millimetres.trim())) return null;
  const tenths = Math.round(Number(millimetres.trim().replace(",", ".")) * 10);
  return tenths <= 100 ? tenths : null;
}
