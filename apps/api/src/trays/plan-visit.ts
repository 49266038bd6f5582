import { readSurfaces, type TrayFacts } from "#domain";
import type { ChangeTray, PlanTray, VisitTooth } from "#contracts/trays";
import { findTechnique } from "../catalogue/catalogue.store.ts";
import type { Tx } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import { notFound, Problem } from "../http/problem.ts";
import { findLocation } from "../stock/stock.store.ts";
import { findTemplate } from "./templates.store.ts";
import * as store from "./trays.store.ts";

/** Plans a tray for a visit that was read; gives its id. */
export async function planVisit(tx: Tx, visit: PlanTray): Promise<string> {
  await refuseUnknown(tx, visit, null);
  const { chartNumber, templateId, ...plan } = visit;
  const preferred = templateId === null ? {} : await getPreferred(tx, templateId);
  const id = newId();
  const patientId = await store.patientForChart(tx, chartNumber, newId());
  await store.insertTray(tx, { ...plan, id, patientId, preferred });
  tx.audit("tray-planned", `tray:${id}`, { ...plan, patientId, templateId });
  return id;
}

/** What a template prefers, by step: the tray keeps it as it is now. */
async function getPreferred(tx: Tx, templateId: string): Promise<TrayFacts["preferred"]> {
  const template = await findTemplate(tx, templateId);
  if (!template) throw notFound("template");
  return Object.fromEntries(
    template.products.map(({ stepKey, products }) => [stepKey, products.map(({ id }) => id)]),
  );
}

/** A visit as it may be kept: surfaces in their order, its time one that has a date anywhere. */
export function readVisit<Visit extends ChangeTray>(told: Visit): Visit {
  // A year far off has no civil date in every zone; as text, instants sort by their time.
  if (told.appointmentAt < "1900" || told.appointmentAt >= "3000") {
    const message = "between the years 1900 and 2999";
    const detail = `An appointment lies ${message}. Correct its date.`;
    throw new Problem("invalid-request", detail, {
      errors: [{ path: "/body/appointmentAt", message }],
    });
  }
  return { ...told, teeth: told.teeth.map(orderSurfaces) };
}

/** A version that is retired can stay where the visit was planned with it. */
export async function refuseUnknown(tx: Tx, visit: ChangeTray, kept: string | null): Promise<void> {
  const place = await findLocation(tx, visit.locationId);
  if (place?.kind !== "operatory") throw notFound("operatory");
  const technique = await findTechnique(tx, visit.techniqueId);
  if (!technique || (technique.retired && technique.id !== kept)) throw notFound("technique");
}

/** The surfaces in their usual order; those that the tooth does not have are refused. */
function orderSurfaces(tooth: VisitTooth, index: number): VisitTooth {
  if (tooth.surfaces === "") return tooth;
  const read = readSurfaces(tooth.tooth, tooth.surfaces);
  if (read.ok) return { ...tooth, surfaces: read.surfaces };
  throw new Problem(
    "invalid-request",
    `${tooth.surfaces} are no surfaces of tooth ${tooth.tooth}. Write them as in MOD.`,
    { errors: [{ path: `/body/teeth/${index}/surfaces`, message: read.error }] },
  );
}
