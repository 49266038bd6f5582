import {
  assignSteps,
  checkTray,
  suggestContainers,
  type Finding,
  type StepAssignment,
} from "#domain";
import type { CheckView, FindingView } from "#contracts/findings";
import type { TrayItemView, TrayLine, TrayView } from "#contracts/trays";
import type { Tx } from "../db/transaction.ts";
import { containerView, type ContainerRow } from "../stock/container-row.ts";
import type { ItemRow, LoadedTray, TrayHead } from "./tray-facts.store.ts";
import { listOverrides, type OverrideRow } from "./trays.store.ts";

/** What an override is kept under: the item a finding is about, else its step. */
export const subjectOf = (finding: Finding): string =>
  finding.subject.itemId ?? finding.subject.stepKey ?? "tray";

/** Checks a tray at this moment, with the stops that a dentist has passed marked as such. */
export async function checkNow(tx: Tx, loaded: LoadedTray): Promise<CheckView> {
  return checkWith(tx, loaded, await listOverrides(tx, [loaded.head.id]));
}

function checkWith(tx: Tx, loaded: LoadedTray, overrides: readonly OverrideRow[]): CheckView {
  const at = tx.at.toISOString();
  const { verdict, findings } = checkTray(loaded.facts, at);
  const passed = overrides.filter((each) => each.tray_id === loaded.head.id);
  const views = findings.map((finding): FindingView => {
    const by = passed.find(
      (each) => each.code === finding.code && each.subject === subjectOf(finding),
    );
    const overridden = by ? { by: by.person, at: by.at.toISOString(), reason: by.reason } : null;
    return { ...finding, because: [...finding.because], overridden };
  });
  const open = views.filter(({ level, overridden }) => level === "stop" && !overridden);
  return { at, verdict, findings: views, mayStart: open.length === 0 };
}

export async function readTrayView(tx: Tx, loaded: LoadedTray): Promise<TrayView> {
  const { head, rows, facts } = loaded;
  const at = tx.at.toISOString();
  const assignment = assignSteps(facts.technique.steps, facts.items);
  const withMaterial = facts.technique.steps.filter((step) => step.accepts.length > 0);
  return {
    id: head.id,
    chartNumber: head.chart_number,
    tooth: head.tooth,
    technique: techniqueOfHead(head),
    location: { id: head.location_id, name: head.location_name },
    appointmentAt: head.appointment_at.toISOString(),
    state: head.state,
    recordId: head.record_id,
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
    check: await checkNow(tx, loaded),
  };
}

export const techniqueOfHead = (head: TrayHead): TrayView["technique"] => ({
  id: head.technique_id,
  key: head.technique_key,
  name: head.technique_name,
  version: head.technique_version,
  visit: head.visit,
  starter: head.technique_starter,
  steps: head.steps.map((step) => ({
    ...step,
    accepts: [...step.accepts],
    solventsAllowed: step.solventsAllowed && [...step.solventsAllowed],
  })),
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
    placedAt: row.placed_at.toISOString(),
    placedBy: row.placed_by,
  };
}

/** One line a tray, each checked now. */
export async function readTrayLines(tx: Tx, trays: readonly LoadedTray[]): Promise<TrayLine[]> {
  const overrides = await listOverrides(
    tx,
    trays.map(({ head }) => head.id),
  );
  return trays.map((loaded) => {
    const { head } = loaded;
    const { verdict, findings } = checkWith(tx, loaded, overrides);
    return {
      id: head.id,
      chartNumber: head.chart_number,
      tooth: head.tooth,
      techniqueName: head.technique_name,
      locationName: head.location_name,
      appointmentAt: head.appointment_at.toISOString(),
      state: head.state,
      verdict,
      missing: findings.filter(({ code }) => code === "missing").length,
      items: loaded.rows.length,
      recordId: head.record_id,
    };
  });
}
