import {
  assignSteps,
  checkTray,
  listStepsFor,
  suggestContainers,
  type Finding,
  type StepAssignment,
  type TrayFacts,
} from "#domain";
import type { CheckView, FindingView } from "#contracts/findings";
import { stepViews } from "../catalogue/step-views.ts";
import type { TrayItemView, TrayLine, TrayView } from "#contracts/trays";
import type { Tx } from "../db/transaction.ts";
import { containerView, type ContainerRow } from "../stock/container-row.ts";
import type { ItemRow, LoadedTray, OverrideRow, TrayHead } from "./tray-facts.store.ts";

/** What an override is kept under: the item a finding is about, else its step. */
export const subjectOf = (finding: Finding): string =>
  finding.subject.itemId ?? finding.subject.stepKey ?? "tray";

/**
 * Checks a tray at this moment, or at one that is told later, with the stops that a dentist has
 * passed marked as such.
 */
export function checkNow(tx: Tx, loaded: LoadedTray, then?: string): CheckView {
  const at = then ?? tx.at.toISOString();
  const { verdict, findings } = checkTray(loaded.facts, at);
  const views = findings.map((finding): FindingView => {
    const by = loaded.overrides.find(
      (each) => each.code === finding.code && each.subject === subjectOf(finding),
    );
    return findingView(finding, by);
  });
  const open = views.filter(({ level, overridden }) => level === "stop" && !overridden);
  return { at, verdict, findings: views, mayStart: open.length === 0 };
}

/** A finding, with who passed it and why. */
export function findingView(finding: Finding, by: OverrideRow | undefined): FindingView {
  const overridden = by ? { by: by.person, at: instantOf(by.at), reason: by.reason } : null;
  return { ...finding, because: [...finding.because], overridden };
}

/** An instant as the database writes it inside JSON, in the form of the contract. */
const instantOf = (text: string): string => new Date(text).toISOString();

/** What stands at each step that applies to one of the visit's teeth. */
export const assignVisitSteps = ({ technique, teeth, items }: TrayFacts): StepAssignment =>
  assignSteps(listStepsFor(technique.steps, teeth), items);

export function trayView(tx: Tx, loaded: LoadedTray): TrayView {
  const { head, rows, facts } = loaded;
  const at = tx.at.toISOString();
  const assignment = assignVisitSteps(facts);
  const withMaterial = assignment.steps
    .map(({ step }) => step)
    .filter((step) => step.accepts.length > 0);
  return {
    id: head.id,
    chartNumber: head.chart_number,
    patient: { id: head.patient_id, allergies: head.allergies },
    teeth: head.teeth,
    technique: techniqueOfHead(head),
    location: { id: head.location_id, name: head.location_name },
    appointmentAt: instantOf(head.appointment_at),
    bondingOn: head.bonding_on,
    state: head.state,
    records: head.records,
    items: rows.map((row) => itemView(row, assignment)),
    suggestions: Object.fromEntries(
      withMaterial.map(({ key }) => [
        key,
        suggestContainers(facts, key, at)
          .slice(0, 3)
          .map(({ container, product, end }) => ({
            containerId: container.id,
            code: container.code,
            productName: product.name,
            lot: container.lot,
            endsOn: end?.date ?? null,
            open: container.state === "open",
            place: container.place.name,
          })),
      ]),
    ),
    check: checkNow(tx, loaded),
  };
}

export const techniqueOfHead = (head: TrayHead): TrayView["technique"] => ({
  id: head.technique_id,
  key: head.technique_key,
  name: head.technique_name,
  version: head.technique_version,
  visit: head.visit,
  starter: head.technique_starter,
  steps: stepViews(head.steps),
});

export function itemView(row: ItemRow, assignment: StepAssignment): TrayItemView {
  const served = assignment.steps.filter(({ items }) => items.some(({ id }) => id === row.item_id));
  return {
    id: row.item_id,
    barcode: row.barcode,
    reading: row.scanned,
    stepKeys: served.map(({ step }) => step.key),
    productName: row.product_name,
    container:
      row.id === null
        ? null
        : containerView({
            ...(row as ItemRow & ContainerRow),
            withdrawn: row.withdrawals.length > 0,
          }),
    placedAt: instantOf(row.placed_at),
    scannedAt: row.scanned_at === null ? null : instantOf(row.scanned_at),
    placedBy: row.placed_by,
  };
}

/** A tray as one line of a list, checked now. */
export function trayLine(tx: Tx, loaded: LoadedTray): TrayLine {
  const { head } = loaded;
  const { verdict, findings } = checkNow(tx, loaded);
  return {
    id: head.id,
    chartNumber: head.chart_number,
    teeth: head.teeth.map(({ tooth }) => tooth),
    techniqueName: head.technique_name,
    locationName: head.location_name,
    appointmentAt: instantOf(head.appointment_at),
    state: head.state,
    verdict,
    missing: findings.filter(({ code }) => code === "missing").length,
    items: loaded.rows.length,
    records: head.records,
  };
}
