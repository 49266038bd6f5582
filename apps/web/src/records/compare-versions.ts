import type { AnswerOf } from "#contracts/operations";

type RecordView = AnswerOf<"getRecord">;
type Event = RecordView["events"][number];
type Material = RecordView["materials"][number];

/** A line of a version with whether the other version has it, too. */
export interface Compared<Line> {
  line: Line;
  isShared: boolean;
}
export interface ComparedVersion {
  events: readonly Compared<Event>[];
  materials: readonly Compared<Material>[];
  /** At a bonding the seal it builds on, or none; at a sealing nothing. */
  seals: readonly Compared<RecordView["seal"]>[];
}

/**
 * Two versions line by line. A line is the same where it tells the same of the same moment; the
 * numbers under which versions keep it are their own.
 */
export function compareVersions(
  one: RecordView,
  other: RecordView,
): readonly [ComparedVersion, ComparedVersion] {
  return [against(one, other), against(other, one)];
}

function against(one: RecordView, other: RecordView): ComparedVersion {
  return {
    events: mark(one.events, other.events, nameEvent),
    materials: mark(one.materials, other.materials, nameMaterial),
    seals: mark(sealsOf(one), sealsOf(other), (seal) => seal?.id ?? ""),
  };
}

/** A line that stands there twice is shared as often as the other version has it. */
function mark<Line>(
  lines: readonly Line[],
  others: readonly Line[],
  nameOf: (line: Line) => string,
): Compared<Line>[] {
  const left = new Map<string, number>();
  for (const line of others) left.set(nameOf(line), (left.get(nameOf(line)) ?? 0) + 1);
  return lines.map((line) => {
    const name = nameOf(line);
    const count = left.get(name) ?? 0;
    left.set(name, count - 1);
    return { line, isShared: count > 0 };
  });
}

const sealsOf = ({ visit, seal }: RecordView) => (visit === "bonding" ? [seal] : []);

const nameEvent = ({ sequence: _own, ...told }: Event): string => JSON.stringify(told);

/** A container names its product, whatever that was called when each version was signed. */
const nameMaterial = ({ id: _own, productName, ...told }: Material): string =>
  JSON.stringify(told.containerId === null ? { ...told, productName } : told);
