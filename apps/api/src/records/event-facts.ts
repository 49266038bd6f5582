import { exposureOfMode, irradianceAtDistance, type TechniqueStep } from "#domain";
import type { AddRecordEvent, CureView } from "#contracts/records";
import type { Tx } from "../db/transaction.ts";
import { Problem, notFound } from "../http/problem.ts";
import { findLight, type LightRow } from "../lights/lights.store.ts";
import type { ReadRecord } from "./read-record.ts";

type EventOf<K extends AddRecordEvent["kind"]> = Extract<AddRecordEvent, { kind: K }>;

const slackMs = 5 * 60_000;

/** Between the start of priming and now; tablets are minutes off at times. */
export function refuseTimeOutside(
  tx: Tx,
  { record }: ReadRecord,
  occurredAt: string | undefined,
): void {
  if (occurredAt === undefined) return;
  const at = Date.parse(occurredAt);
  const isInside = at >= record.started_at.getTime() - slackMs && at <= tx.at.getTime() + slackMs;
  if (isInside) return;
  const message = "not before priming began and not later than now";
  throw new Problem("invalid-request", `Correct the time: ${message}.`, {
    errors: [{ path: "/body/occurredAt", message }],
  });
}

/** What is written of an event besides its step and its times. */
export async function factsOf(
  tx: Tx,
  read: ReadRecord,
  { event, step }: { event: AddRecordEvent; step: TechniqueStep | null },
): Promise<object> {
  const { kind: _kind, occurredAt: _when, ...told } = event;
  const { stepKey: _step, ...facts } = { stepKey: undefined, ...told };
  if (event.kind === "dispensed") refuseElsewhere(read, event);
  if (event.kind === "step-left-out" && step?.required === true) throw mustBeDone(step);
  if (event.kind === "deviation" && event.what === "other" && event.text === "") {
    throw new Problem("invalid-request", "Say what was done otherwise than planned.", {
      errors: [{ path: "/body/text", message: "needed where it is none of those named" }],
    });
  }
  if (event.kind === "cure" && step !== null) return cureFacts(tx, read, { event, step });
  return facts;
}

function refuseElsewhere({ tray }: ReadRecord, { containerId }: EventOf<"dispensed">): void {
  if (tray.rows.some(({ id }) => id === containerId)) return;
  throw new Problem("not-on-tray", "That container is not on this tray. Scan it in first.");
}

const mustBeDone = ({ name }: TechniqueStep) =>
  new Problem("step-required", `“${name}” belongs to the technique and cannot be left out.`);

async function cureFacts(
  tx: Tx,
  read: ReadRecord,
  told: { event: EventOf<"cure">; step: TechniqueStep },
): Promise<CureView> {
  const { event, step } = told;
  const { seconds, distanceTenthMm, lightId } = event;
  const neededJCm2 = neededAt(read, step);
  const unknown = { irradianceMwCm2: null, known: "unknown" as const, givenJCm2: null };
  if (lightId === null) {
    return { seconds, light: "", mode: null, distanceTenthMm, ...unknown, neededJCm2 };
  }
  const light = await findLight(tx, lightId);
  if (!light) throw notFound("curing light");
  const mode = light.modes.find(({ name }) => name === event.mode) ?? light.modes[0];
  if (mode === undefined || (event.mode !== undefined && mode.name !== event.mode)) {
    throw notFound(`mode '${event.mode}'`);
  }
  const curedAt = event.occurredAt ?? tx.at.toISOString();
  const table = tableOf(light, { mode: mode.name, at: curedAt });
  const at = irradianceAtDistance(table, distanceTenthMm);
  const about = { seconds, light: light.name, mode: mode.name, distanceTenthMm, neededJCm2 };
  if (at === null) return { ...about, ...unknown };
  const { irradianceMwPerCm2, known } = at;
  const givenMj = exposureOfMode(mode.phases, irradianceMwPerCm2, seconds);
  // Rounded down: less light than there is is the safe side.
  const givenJCm2 = Math.floor(givenMj / 10) / 100;
  return { ...about, irradianceMwCm2: irradianceMwPerCm2, known, givenJCm2 };
}

/** The largest exposure asked for by what was used at the step, else by what stands there. */
function neededAt({ tray, materials }: ReadRecord, step: TechniqueStep): number | null {
  const used = materials.filter(({ step_key }) => step_key === step.key);
  const there = tray.facts.items.filter(
    ({ product }) => product !== null && step.accepts.includes(product.kind),
  );
  const needs =
    used.length > 0
      ? used.map(({ radiant_exposure_j_cm2: needed }) => needed)
      : there.map(({ product }) => product?.radiantExposureJCm2 ?? null);
  const stated = needs.filter((needed): needed is number => needed !== null);
  return stated.length === 0 ? null : Math.max(...stated);
}

/** At each distance the latest reading of that time that stands; they come oldest first. */
function tableOf(light: LightRow, { mode, at }: { mode: string; at: string }) {
  const latest = new Map<number, number>();
  for (const one of light.readings) {
    const counts = one.mode === mode && !one.replaced && Date.parse(one.readAt) <= Date.parse(at);
    if (counts) latest.set(one.distanceTenthMm, one.irradianceMwCm2);
  }
  return [...latest].map(([distanceTenthMm, irradianceMwPerCm2]) => ({
    distanceTenthMm,
    irradianceMwPerCm2,
  }));
}
