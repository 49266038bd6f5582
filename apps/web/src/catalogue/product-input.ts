/** What stands in the form of a product, as the contract wants it. */
import {
  contents,
  productKinds,
  solvents,
  strategies,
  type ProductKind,
  type Solvent,
} from "#domain";
import type { ProductInput } from "./facts.ts";

/** How the form says what is known of the solvents: nothing, that there are none, or which. */
export type SolventsKnown = "unknown" | "none" | "some";

/** The answer of a form to `solventsKnown` for what is stored. */
export function solventsKnownOf(stored: readonly Solvent[] | null): SolventsKnown {
  if (stored === null) return "unknown";
  return stored.length === 0 ? "none" : "some";
}

const textOf = (data: FormData, name: string): string => {
  const value = data.get(name);
  return typeof value === "string" ? value.trim() : "";
};

function numberOf(data: FormData, name: string): number | null {
  const text = textOf(data, name);
  return text === "" ? null : Number(text);
}

function oneOf<T extends string>(list: readonly T[], text: string): T | null {
  return list.find((one) => one === text) ?? null;
}

function someOf<T extends string>(list: readonly T[], data: FormData, name: string): T[] {
  const chosen = data.getAll(name);
  return list.filter((one) => chosen.includes(one));
}

function solventsOf(data: FormData): Solvent[] | null {
  const known = textOf(data, "solventsKnown");
  if (known === "none") return [];
  const chosen = someOf(solvents, data, "solvents");
  return known === "some" && chosen.length > 0 ? chosen : null;
}

function lifeOf(data: FormData): ProductInput["inUseLife"] {
  const count = numberOf(data, "inUseCount");
  if (count === null) return null;
  return { count, unit: textOf(data, "inUseUnit") === "month" ? "month" : "day" };
}

/** Reads the form. An empty field is "not stated" (`null`), never zero. */
export function readProductForm(data: FormData, systemId: string): ProductInput {
  const kind: ProductKind = oneOf(productKinds, textOf(data, "kind")) ?? "primer";
  return {
    name: textOf(data, "name"),
    labeler: textOf(data, "labeler"),
    kind,
    solvents: solventsOf(data),
    strategy: oneOf(strategies, textOf(data, "strategy")),
    systemId: systemId === "" ? null : systemId,
    contents: someOf(contents, data, "contents"),
    inUseLife: lifeOf(data),
    applicationSeconds: numberOf(data, "applicationSeconds"),
    airDrySeconds: numberOf(data, "airDrySeconds"),
    cureSeconds: numberOf(data, "cureSeconds"),
    radiantExposureJCm2: numberOf(data, "radiantExposureJCm2"),
    warmUpMinutes: numberOf(data, "warmUpMinutes"),
    dropLifeSeconds: numberOf(data, "dropLifeSeconds"),
    fillerPercent: numberOf(data, "fillerPercent"),
    modulusGpa: numberOf(data, "modulusGpa"),
    excursionLevel: textOf(data, "excursionLevel") === "stop" ? "stop" : "caution",
    storageMinC: numberOf(data, "storageMinC"),
    storageMaxC: numberOf(data, "storageMaxC"),
    singleUse: data.get("singleUse") !== null,
    usesPerContainer: numberOf(data, "usesPerContainer"),
    ifuVersion: textOf(data, "ifuVersion"),
  };
}
