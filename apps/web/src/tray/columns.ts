import { listStepsFor } from "#domain";
import type { AnswerOf } from "#contracts/operations";
import { showTooth } from "../texts/tooth-notation.ts";

export type Tray = AnswerOf<"getTray">;
export type TrayItem = Tray["items"][number];
export type TrayFinding = Tray["check"]["findings"][number];
export type TrayStep = Tray["technique"]["steps"][number];

/** The teeth of a visit as one text. */
export const nameTeeth = ({ teeth }: Pick<Tray, "teeth">): string =>
  teeth.map(({ tooth }) => showTooth(tooth)).join(", ");

/** A scan that the server has not yet answered, as far as this device understands it. */
export interface PendingScan {
  key: string;
  name: string;
  detail: string;
  /** Its product's kind, where this device knows it: it says where the scan will land. */
  kind: string | null;
  /** Waiting for long: the server does not answer. */
  late: boolean;
}

export interface Column {
  step: TrayStep;
  usesMaterial: boolean;
  items: readonly TrayItem[];
  pending: readonly PendingScan[];
  /** Worst first. */
  findings: readonly TrayFinding[];
  /** What to fetch for it, best first. */
  suggestions: Tray["suggestions"][string];
}

export interface ArrangedTray {
  columns: readonly Column[];
  /** What belongs to no step. */
  apart: {
    items: readonly TrayItem[];
    pending: readonly PendingScan[];
    findings: readonly TrayFinding[];
  };
}

/**
 * Puts the containers, the scans under way and the findings of a tray under the steps that they
 * concern. A finding without a step goes with its container's first step; one about neither, and a
 * container that no step takes, stand apart. `removed` are items whose removal is under way.
 */
export function arrangeTray(
  tray: Pick<Tray, "technique" | "teeth" | "items" | "suggestions" | "check">,
  pending: readonly PendingScan[] = [],
  removed: ReadonlySet<string> = new Set(),
): ArrangedTray {
  const steps = listStepsFor(tray.technique.steps, tray.teeth);
  const items = tray.items.filter((item) => !removed.has(item.id));
  const stepOfItem = new Map(items.map((item) => [item.id, item.stepKeys[0] ?? null]));
  const columnOf = ({ subject }: TrayFinding): string | null =>
    subject.stepKey ?? stepOfItem.get(subject.itemId ?? "") ?? null;
  const findings = tray.check.findings.filter(
    ({ subject }) => subject.itemId === null || !removed.has(subject.itemId),
  );
  const stepFor = ({ kind }: PendingScan): string | null =>
    steps.find((step) => kind !== null && (step.accepts as readonly string[]).includes(kind))
      ?.key ?? null;
  const columns = steps.map((step): Column => ({
    step,
    usesMaterial: step.accepts.length > 0,
    items: items.filter((item) => item.stepKeys.includes(step.key)),
    pending: pending.filter((scan) => stepFor(scan) === step.key),
    findings: findings.filter((finding) => columnOf(finding) === step.key),
    suggestions: tray.suggestions[step.key] ?? [],
  }));
  const keys = new Set(steps.map((step) => step.key));
  return {
    columns,
    apart: {
      items: items.filter((item) => item.stepKeys.length === 0),
      pending: pending.filter((scan) => stepFor(scan) === null),
      findings: findings.filter((finding) => !keys.has(columnOf(finding) ?? "")),
    },
  };
}

/** How many findings of each weight count: a stop that a dentist has passed no longer does. */
export function countFindings(
  findings: readonly TrayFinding[],
): Record<"stop" | "caution" | "info", number> {
  const counts = { stop: 0, caution: 0, info: 0 };
  for (const { level, overridden } of findings) if (overridden === null) counts[level] += 1;
  return counts;
}
