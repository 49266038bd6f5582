import { identifierOf, type DeviceIdentifier } from "./identifier.ts";
import { packLevelOf, tellItemsApart, type ItemNames, type PackLabel } from "./pack-item.ts";
import { readLabel } from "./read-label.ts";
import type { LabelDate, LabelFields, LabelResult, ReadOptions } from "./result.ts";

/** What is compared between the labels of a pack. */
export const packFieldNames = ["identifier", "lot", "expiry", "serial", "production"] as const;

/** One of the fields compared between the labels of a pack. */
export type PackFieldName = (typeof packFieldNames)[number];

/**
 * How the labels of a pack stand to each other in a field. `agreed`: all that have it say the same,
 * a month and a day within it included. `single`: only one label has it. `levels`: identifiers,
 * serials or production dates of different levels of packing, which rightly differ. `items`: the
 * labels name different items, which rightly differ in all else. `conflict`: they contradict each
 * other.
 */
export type PackStanding = "agreed" | "single" | "levels" | "items" | "conflict";

/**
 * A field of a pack: what each label says of it, in the order of the labels, null where it says
 * nothing. A date is YYYY-MM-DD, YYYY-MM where the label gave no day, or a day and a time.
 */
export type PackLine = { field: PackFieldName; standing: PackStanding; values: (string | null)[] };

/** A level of packing within a pack: its identifier, and what belongs to this level alone. */
export type PackLevel = {
  identifier: DeviceIdentifier;
  /** The indicator digit of a GTIN or the unit of measure of HIBC, 0 to 9. */
  level?: number;
  /** The labels that name it, by their index. */
  labels: number[];
  serial?: string;
  production?: LabelDate;
};

/**
 * One item of a pack: its labels by their index, its levels in ascending order, and what the labels
 * say together. A field that they contradict each other about is left out.
 */
export type PackItem = {
  labels: number[];
  levels: PackLevel[];
  fields: { lot?: string; expiry?: LabelDate; serial?: string; production?: LabelDate };
};

/** What the labels of one pack say. `ok`: every label was read, and nothing conflicts. */
export type PackReading = {
  ok: boolean;
  labels: LabelResult[];
  items: PackItem[];
  lines: PackLine[];
  conflicts: PackLine[];
};

/**
 * How to read a pack: each label as `readLabel` does, and `itemOf`, the name under which a catalogue
 * keeps the item of an identifier, since two identifiers may be one item's without showing it.
 */
export type PackOptions = ReadOptions & { itemOf?: ItemNames };

/** More labels than any pack bears. */
const MAX_LABELS = 64;

/**
 * Reads the labels of one pack, such as a box, the bottle in it and the tube around that; each is
 * one symbol or several, as `readLabel` takes them. Every label is read by itself, then they are
 * compared. Nothing is repaired, and where two labels contradict each other neither is picked.
 * Identifiers of different levels of packing are no conflict; labels that name different items are
 * one, with each item told apart. A serial and a production date belong to a level (GS1 General
 * Specifications 3.2 and 3.4: both go with the GTIN). A date of the month and a day within it
 * agree, and the day, which is the earlier, is taken. The order of the labels makes no difference.
 * A refused label keeps its error in `labels` and takes no part; those beyond the 64th are
 * refused with `value_too_long`. Source: project rules, but for those named.
 */
export function readPack(
  inputs: readonly (string | readonly string[])[],
  options: PackOptions,
): PackReading {
  const labels = inputs.map((input, index): LabelResult => {
    if (index < MAX_LABELS) return readLabel(input, options);
    return { ok: false, error: { kind: "value_too_long", at: 0, length: 0 }, raw: input };
  });
  const read = labels.flatMap((label, index): PackLabel[] => (label.ok ? [{ index, label }] : []));
  const parted = tellItemsApart(read, options.itemOf ?? (() => undefined));
  const items = parted.map(combineItem);
  const lines = packFieldNames.flatMap((field): PackLine[] => {
    const values = labels.map((label) => (label.ok ? textOf(label.fields, field) : null));
    if (values.every((value) => value === null)) return [];
    return [{ field, standing: standingOf(field, parted, values), values }];
  });
  const conflicts = lines.filter(({ standing }) => standing === "conflict");
  const ok = labels.length > 0 && read.length === labels.length && conflicts.length === 0;
  return { ok, labels, items, lines, conflicts };
}

function textOf(fields: LabelFields, field: PackFieldName): string | null {
  if (field === "identifier") return identifierOf(fields)?.value ?? null;
  if (field === "lot" || field === "serial") return fields[field] ?? null;
  const date = fields[field];
  return date === undefined ? null : dateText(date);
}

/** A date so written that one within another begins with it. */
function dateText({ date, precision, time }: LabelDate): string {
  if (precision === "month") return date.slice(0, 7);
  return time === undefined ? date : `${date}T${time}`;
}

function standingOf(
  field: PackFieldName,
  items: readonly PackLabel[][],
  values: readonly (string | null)[],
): PackStanding {
  const given = values.filter((value) => value !== null);
  if (field === "identifier" && items.length > 1) return "conflict";
  if (items.some((item) => !isConsistent(item, field))) return "conflict";
  if (given.length === 1) return "single";
  if (finestOf(field, given) !== undefined) return "agreed";
  return items.length > 1 ? "items" : "levels";
}

/** Whether the labels of one item can all be right about a field. */
function isConsistent(item: readonly PackLabel[], field: PackFieldName): boolean {
  if (field === "identifier") return true;
  const groups = field === "serial" || field === "production" ? byLevel(item) : [item];
  return groups.every((group) => {
    const given = givenBy(group, field);
    return given.length === 0 || finestOf(field, given) !== undefined;
  });
}

function givenBy(labels: readonly PackLabel[], field: PackFieldName): string[] {
  return labels.flatMap(({ label }) => textOf(label.fields, field) ?? []);
}

/** The most precise of the values when all others hold it, otherwise undefined. */
function finestOf(field: PackFieldName, given: readonly string[]): string | undefined {
  const isDate = field === "expiry" || field === "production";
  let finest = given[0] ?? "";
  for (const value of given) if (isDate && value.length > finest.length) finest = value;
  const agree = given.every((value) => (isDate ? finest.startsWith(value) : value === finest));
  return agree ? finest : undefined;
}

/** The labels of an item by their identifier; those without one go with the only one there is. */
function byLevel(item: readonly PackLabel[]): PackLabel[][] {
  const levels = new Map<string, PackLabel[]>();
  const unnamed: PackLabel[] = [];
  for (const one of item) {
    const identifier = textOf(one.label.fields, "identifier");
    if (identifier === null) unnamed.push(one);
    else levels.set(identifier, [...(levels.get(identifier) ?? []), one]);
  }
  if (levels.size < 2) return [[...item]];
  return [...levels.values(), unnamed];
}

function combineItem(item: readonly PackLabel[]): PackItem {
  const levels = byLevel(item).flatMap((group): PackLevel[] => {
    const named = group.find(({ label }) => identifierOf(label.fields) !== undefined);
    const identifier = named && identifierOf(named.label.fields);
    if (identifier === undefined) return [];
    const level = packLevelOf(identifier);
    const labels = group.map(({ index }) => index);
    const serial = agreedText(group, "serial");
    const production = agreedDate(group, "production");
    return [
      {
        identifier,
        ...(level === undefined ? {} : { level }),
        labels,
        ...(serial === undefined ? {} : { serial }),
        ...(production === undefined ? {} : { production }),
      },
    ];
  });
  const fields: PackItem["fields"] = {};
  for (const field of ["lot", "serial"] as const) {
    const value = agreedText(item, field);
    if (value !== undefined) fields[field] = value;
  }
  for (const field of ["expiry", "production"] as const) {
    const value = agreedDate(item, field);
    if (value !== undefined) fields[field] = value;
  }
  levels.sort((a, b) => compareTexts(levelKey(a), levelKey(b)));
  return { labels: item.map(({ index }) => index), levels, fields };
}

const levelKey = ({ level, identifier }: PackLevel): string => `${level} ${identifier.value}`;

function compareTexts(a: string, b: string): number {
  if (a === b) return 0;
  return a < b ? -1 : 1;
}

function agreedText(labels: readonly PackLabel[], field: "lot" | "serial"): string | undefined {
  const given = givenBy(labels, field);
  return given.length === 0 ? undefined : finestOf(field, given);
}

function agreedDate(
  labels: readonly PackLabel[],
  field: "expiry" | "production",
): LabelDate | undefined {
  const given = givenBy(labels, field);
  const finest = given.length === 0 ? undefined : finestOf(field, given);
  const holder = labels.find(({ label }) => textOf(label.fields, field) === finest);
  return finest === undefined ? undefined : holder?.label.fields[field];
}
