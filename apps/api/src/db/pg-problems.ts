import { Problem } from "../http/problem.ts";
import type { ProblemCode } from "#contracts/problem-codes";

/** A constraint's name is part of the design: it says which rule was broken. */
const byConstraint: Record<string, readonly [ProblemCode, string]> = {
  curing_light_name_taken: ["name-taken", "Another light has this name. Choose another one."],
  light_reading_replaced_once: [
    "not-found",
    "Another reading stands in the place of that one already. Reload the light.",
  ],
  balance_not_below_zero: [
    "not-enough-stock",
    "There are not that many of this lot at that place any more. Count the shelf and try again.",
  ],
  balance_covers_containers: [
    "not-enough-stock",
    "What is left of this lot at that place is tracked container by container. Scan the one you mean.",
  ],
  container_not_there: [
    "container-not-there",
    "The container is no longer at that place: somebody moved it meanwhile. Scan it again.",
  ],
  container_opened_once: ["already-opened", "The container was opened before; its date stays."],
  container_serial_taken: [
    "serial-taken",
    "A container with this serial number of this product is already registered. Compare the labels.",
  ],
  delivery_line_delivery_fk: ["not-found", "There is no such delivery in this practice."],
  device_name_filled: [
    "invalid-request",
    "A tablet's name has at most 100 characters. Shorten it.",
  ],
  finding_override_by_dentist: ["not-allowed", "Only a dentist can pass a stop, in person."],
  finding_override_once: ["already-overridden", "A dentist has already passed this finding."],
  label_printer_name_taken: ["name-taken", "Another printer has this name. Choose another one."],
  label_run_subject_container_fk: [
    "not-found",
    "There is no such container in this practice. Reload the list and choose again.",
  ],
  label_sheet_name_taken: ["name-taken", "Another sheet has this name. Choose another one."],
  location_name_taken: ["name-taken", "Another place has this name. Choose another one."],
  movement_between_places: [
    "invalid-request",
    "The container is already there: choose another place to move it to.",
  ],
  movement_container_single: ["invalid-request", "A container is moved one at a time."],
  movement_from_fk: ["not-found", "There is no such place to move from."],
  movement_to_fk: ["not-found", "There is no such place to move to."],
  movement_lot_fk: ["not-found", "There is no such lot in this practice."],
  movement_reversed_once: [
    "movement-already-reversed",
    "This movement is already undone. Look at the container's history.",
  ],
  movement_reversal_mirrors: [
    "movement-not-reversible",
    "A reversal cannot be undone itself: enter a new movement instead.",
  ],
  movement_not_before_told: [
    "invalid-request",
    "The movement is said to have happened in the future. Check the tablet's clock.",
  ],
  person_sign_in_name_taken: ["name-taken", "That sign-in name is taken. Choose another one."],
  product_identifier_taken: [
    "identifier-taken",
    "That device identifier belongs to another product. Open that product instead.",
  ],
  product_name_taken: ["name-taken", "Another product has this name. Choose another one."],
  product_exposure_positive: [
    "invalid-request",
    "The radiant exposure is kept to a hundredth of a J/cm²: state at least 0.01.",
  ],
  product_storage_order: [
    "invalid-request",
    "The lower storage temperature is above the upper one. Swap them.",
  ],
  product_system_fk: ["not-found", "There is no such bonding system."],
  bonding_system_name_taken: ["name-taken", "Another bonding system has this name."],
  record_signed_by_dentist: ["not-allowed", "Only a dentist signs a record, in person."],
  tray_template_name_taken: ["name-taken", "There is a template of that name. Choose another one."],
  tray_before_priming: [
    "tray-not-open",
    "Priming has started, so the visit is fixed. Plan another one.",
  ],
  record_is_draft: ["record-signed", "The record is already signed. Enter an amendment instead."],
  record_tray_version_once: ["tray-not-open", "This tray already has its record. Reload the page."],
  step_material_once: ["already-on-tray", "That container is already noted at this step."],
  tray_item_container_once: ["already-on-tray", "That container is already on this tray."],
  waiting_change_alternates: [
    "waiting-unchanged",
    "Somebody changed the same at this moment. Reload the list.",
  ],
  waiting_change_pk: [
    "waiting-unchanged",
    "Somebody changed the same at this moment. Reload the list.",
  ],
  withdrawal_reference_taken: [
    "name-taken",
    "A withdrawal with this reference is already entered. Open it instead.",
  ],
};

/** No such number, date, or text of one: 22003, 22007, 22008, 22P02. */
const outOfRange = new Set(["22003", "22007", "22008", "22P02"]);

const shardedName = /constraint "(.+?)(?:_\d{6,})?"/;

interface PgError extends Error {
  code?: string;
  constraint?: string;
}

/** The problem a database error stands for; undefined where it is a bug or a passing fault. */
export function problemOfPgError(error: unknown): Problem | undefined {
  if (!(error instanceof Error)) return undefined;
  const { code, constraint, message } = error as PgError;
  if (typeof code !== "string") return undefined;
  const name = constraint ?? shardedName.exec(message)?.[1];
  const known = name === undefined ? undefined : byConstraint[name];
  if (known) return new Problem(known[0], known[1]);
  if (code === "TB001") {
    return new Problem("record-signed", "What is written stays. Enter a correction instead.");
  }
  if (outOfRange.has(code)) {
    return new Problem("invalid-request", "A date or number lies outside what can be stored.");
  }
  if (code === "55P03") {
    return new Problem(
      "request-in-progress",
      "Somebody, or this very request sent twice, is still at work on the same thing. Try again.",
      { retryAfterSeconds: 2 },
    );
  }
  if (isUnavailable(code)) return databaseUnavailable();
  return undefined;
}

export const databaseUnavailable = (): Problem =>
  new Problem(
    "database-unavailable",
    "The database does not answer. Nothing was saved; try again in a few seconds.",
    { retryAfterSeconds: 3 },
  );

/**
 * Connection refused, lost or not yet ready; too many connections; disk full; shutting down. Our
 * password is refused where another PostgreSQL has taken the port of ours, which is down.
 */
export function isUnavailable(code: string): boolean {
  return (
    code.startsWith("08") ||
    code.startsWith("57P") ||
    code.startsWith("53") ||
    code === "28P01" ||
    ["ECONNREFUSED", "ECONNRESET", "EPIPE", "ETIMEDOUT"].includes(code)
  );
}

/** What PostgreSQL really sends for a serialisation failure and for a deadlock. */
export const isRetryable = (error: unknown): boolean =>
  ["40001", "40P01"].includes((error as PgError).code ?? "");
