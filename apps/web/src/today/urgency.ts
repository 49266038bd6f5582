import { daysBetween } from "#domain";
import type { AnswerOf } from "#contracts/operations";

type Today = AnswerOf<"getToday">;
export type TodayTray = Today["trays"][number];

/** One thing that needs somebody. */
export type Need =
  | { kind: "withdrawal"; withdrawal: Today["withdrawals"][number] }
  | { kind: "tray"; tray: TodayTray }
  | { kind: "draft"; draft: Today["drafts"][number] }
  | { kind: "expired" | "ending"; container: Today["ending"][number] }
  | { kind: "waiting"; waiting: Today["waiting"] }
  | { kind: "lights"; lights: Today["lights"] }
  | { kind: "excursion"; excursion: Today["excursions"][number] }
  | { kind: "unconfirmed"; product: Today["unconfirmed"][number] };

export type NeedTone = "stop" | "caution" | "plain";
export interface RankedNeed {
  key: string;
  need: Need;
  tone: NeedTone;
}

const soonMs = 2 * 3_600_000;

/**
 * What needs somebody, the most urgent first: withdrawn containers that still stand on a shelf;
 * trays that say stop within two hours; what is past its last day; records not signed; the day's
 * other trays that are not clear, and where it was too cold or warm; cases open with nothing left
 * here; restorations overdue and lights to look at; what ends soon; entries not compared with their
 * instructions. Within a rank by time. Own rule, no source.
 */
export function rankNeeds(today: Today): readonly RankedNeed[] {
  const needs = [
    ...listTrays(today),
    ...listStock(today),
    ...listOverdue(today),
    ...listKeeping(today),
    ...listPapers(today),
  ];
  return needs
    .sort((a, b) => a.rank - b.rank || (a.order < b.order ? -1 : Number(a.order > b.order)))
    .map(({ key, need, tone }) => ({ key, need, tone }));
}

type Ranking = RankedNeed & { rank: number; order: string };

function listTrays({ trays, at }: Today): Ranking[] {
  return trays.flatMap((tray): Ranking[] => {
    if (tray.state === "cleared" || tray.records.length > 0) return [];
    if (tray.verdict === "clear" && tray.missing === 0) return [];
    const stops = tray.verdict === "stop";
    const soon = Date.parse(tray.appointmentAt) - Date.parse(at) <= soonMs;
    const tone = stops ? "stop" : "caution";
    const need = { kind: "tray" as const, tray };
    return [{ key: tray.id, need, tone, rank: stops && soon ? 1 : 4, order: tray.appointmentAt }];
  });
}

function listStock({ ending, withdrawals, on }: Today): Ranking[] {
  const containers = ending.map((container): Ranking => {
    const order = container.endsOn?.date ?? "";
    const expired = order !== "" && daysBetween(on, order) < 0;
    const kind = expired ? ("expired" as const) : ("ending" as const);
    const rank = expired ? 2 : 7;
    return {
      key: container.id,
      need: { kind, container },
      tone: expired ? "stop" : "plain",
      rank,
      order,
    };
  });
  const cases = withdrawals.map((withdrawal): Ranking => {
    const need = { kind: "withdrawal" as const, withdrawal };
    const here = withdrawal.here > 0;
    const order = withdrawal.receivedAt;
    return { key: withdrawal.id, need, tone: here ? "stop" : "caution", rank: here ? 0 : 5, order };
  });
  return [...containers, ...cases];
}

function listOverdue({ waiting }: Today): Ranking[] {
  if (waiting.overdue === 0) return [];
  const need = { kind: "waiting" as const, waiting };
  return [{ key: "waiting", need, tone: "caution", rank: 6, order: "" }];
}

function listKeeping({ lights, excursions }: Today): Ranking[] {
  const places = excursions.map((excursion): Ranking => {
    const need = { kind: "excursion" as const, excursion };
    return { key: excursion.id, need, tone: "caution", rank: 4, order: excursion.from };
  });
  if (lights.length === 0) return places;
  const tone = lights.some(({ state }) => state === "weak") ? "stop" : "caution";
  const need = { kind: "lights" as const, lights };
  return [...places, { key: "lights", need, tone, rank: 6, order: "lights" }];
}

function listPapers({ drafts, unconfirmed }: Today): Ranking[] {
  const unsigned = drafts.map((draft): Ranking => {
    const need = { kind: "draft" as const, draft };
    return { key: draft.recordId, need, tone: "caution", rank: 3, order: draft.startedAt };
  });
  const products = unconfirmed.map((product): Ranking => {
    const need = { kind: "unconfirmed" as const, product };
    return { key: product.id, need, tone: "plain", rank: 8, order: product.name };
  });
  return [...unsigned, ...products];
}
