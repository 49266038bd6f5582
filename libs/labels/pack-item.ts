import { hibcCheckCharacter } from "./hibc-check.ts";
import { identifierOf, type DeviceIdentifier } from "./identifier.ts";
import type { LabelFields, LabelRead } from "./result.ts";

/** A label of a pack that was read: its place among the pack's labels, and what it says. */
export type PackLabel = { index: number; label: LabelRead };

/** What the catalogue calls the item of an identifier, or undefined where it knows none. */
export type ItemNames = (identifier: DeviceIdentifier) => string | undefined;

/**
 * Answers the level of packing that an identifier states: the indicator digit of a GTIN or the
 * unit-of-measure digit of HIBC, 0 to 9; undefined where there is none (PPN). Source: GS1 General
 * Specifications 2.1.2 (indicator); ANSI/HIBC 2.6-2016 section 2.2 (unit of measure).
 */
export function packLevelOf({ scheme, value }: DeviceIdentifier): number | undefined {
  if (scheme === "ppn") return undefined;
  return Number(scheme === "gs1-gtin" ? value.charAt(0) : value.slice(-1));
}

/**
 * Answers the labels of a pack by the item that each names, in the order of the items' first
 * labels. Identifiers that differ in their level of packing alone name one item (GS1 General
 * Specifications 2.1.2, ANSI/HIBC 2.6-2016 section 2.2), and so do those to which `itemOf` gives
 * one name. A label that names no item belongs to the only one there is; an HIBC secondary symbol
 * belongs to the item whose check character is its link. Where several items are there, a label
 * that names none stands apart (project rule: nothing is guessed).
 */
export function tellItemsApart(labels: readonly PackLabel[], itemOf: ItemNames): PackLabel[][] {
  const keyOf = itemKeys(labels, itemOf);
  const items = new Map<string, PackLabel[]>();
  const unnamed: PackLabel[] = [];
  for (const one of labels) {
    const key = keyOf(one.label.fields) ?? linkedKey(one, labels, keyOf);
    if (key === undefined) unnamed.push(one);
    else items.set(key, [...(items.get(key) ?? []), one]);
  }
  const [only = [], ...others] = items.values();
  if (others.length > 0) return inOrder([only, ...others, ...unnamed.map((one) => [one])]);
  const strange = unnamed.filter(({ label }) => isLinked(label) && only.some(isOfHibc));
  const own = unnamed.filter((one) => !strange.includes(one));
  return inOrder([[...only, ...own], ...strange.map((one) => [one])]);
}

function inOrder(items: PackLabel[][]): PackLabel[][] {
  const sorted = items.map((item) => item.sort((a, b) => a.index - b.index));
  const first = ([one]: PackLabel[]): number => one?.index ?? 0;
  return sorted.filter((item) => item.length > 0).sort((a, b) => first(a) - first(b));
}

/** The GTIN inside a logistic unit names an item as well, though not the unit. */
function namedBy(fields: LabelFields): DeviceIdentifier | undefined {
  const { content_gtin: value } = fields;
  return identifierOf(fields) ?? (value === undefined ? undefined : { scheme: "gs1-gtin", value });
}

/** An identifier without its level of packing and, in a GTIN, the check digit that follows it. */
function withoutLevel({ scheme, value }: DeviceIdentifier): string {
  if (scheme === "gs1-gtin") return `${scheme} ${value.slice(1, 13)}`;
  return scheme === "hibc" ? `${scheme} ${value.slice(0, -1)}` : `${scheme} ${value}`;
}

function itemKeys(
  labels: readonly PackLabel[],
  itemOf: ItemNames,
): (fields: LabelFields) => string | undefined {
  const names = new Map<string, string>();
  for (const { label } of labels) {
    const identifier = namedBy(label.fields);
    const name = identifier && itemOf(identifier);
    if (identifier === undefined || name === undefined) continue;
    const bare = withoutLevel(identifier);
    const known = names.get(bare);
    // The lesser of two, so that the order of the labels does not matter.
    if (known === undefined || name < known) names.set(bare, name);
  }
  return (fields) => {
    const identifier = namedBy(fields);
    if (identifier === undefined) return undefined;
    const bare = withoutLevel(identifier);
    const name = names.get(bare);
    return name === undefined ? bare : `named ${name}`;
  };
}

const isLinked = ({ fields }: LabelRead): boolean => fields.link_character !== undefined;
const isOfHibc = ({ label }: PackLabel): boolean => label.fields.lic !== undefined;

/** The item of the primary symbol whose check character is the link of this label. */
function linkedKey(
  { label }: PackLabel,
  labels: readonly PackLabel[],
  keyOf: (fields: LabelFields) => string | undefined,
): string | undefined {
  const { link_character: link } = label.fields;
  if (link === undefined) return undefined;
  const keys = new Set<string | undefined>();
  for (const { label: other } of labels) {
    const { lic, pcn, unit_of_measure: unit } = other.fields;
    if (lic !== undefined && hibcCheckCharacter(`+${lic}${pcn}${unit}`) === link) {
      keys.add(keyOf(other.fields));
    }
  }
  const [key, ...others] = keys;
  return others.length === 0 ? key : undefined;
}
