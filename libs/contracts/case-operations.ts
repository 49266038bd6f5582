/** Trays, records, withdrawals and what oversees them. */
import * as checks from "./check-settings.ts";
import * as live from "./live.ts";
import { get, getOne, type Operation } from "./operation.ts";
import * as overview from "./overview.ts";
import * as trays from "./trays.ts";
import * as withdrawals from "./withdrawals.ts";

export const caseOperations = {
  getCheckSettings: {
    ...get,
    tag: "trays",
    summary: "How strict the checks are here",
    answer: checks.CheckSettingsView,
  },
  changeCheckSettings: {
    tag: "trays",
    summary: "Change thresholds, and raise cautions to stops; a stop is never lowered",
    body: checks.ChangeCheckSettings,
    answer: checks.CheckSettingsView,
    status: 200,
    problems: [],
  },
  listTrays: {
    ...get,
    tag: "trays",
    summary: "Trays of a day with their verdict",
    query: trays.TrayQuery,
    answer: trays.Trays,
  },
  planTray: {
    tag: "trays",
    summary: "Plan a tray for an appointment",
    body: trays.PlanTray,
    answer: trays.TrayView,
    status: 201,
    problems: ["not-found"],
  },
  changeTray: {
    tag: "trays",
    summary: "Change a planned visit; what was scanned in stays and is checked anew",
    body: trays.ChangeTray,
    answer: trays.TrayView,
    status: 200,
    problems: ["not-found", "tray-not-open"],
  },
  getTray: {
    ...getOne,
    tag: "trays",
    summary: "One tray, checked now",
    answer: trays.TrayView,
  },
  scanIntoTray: {
    tag: "trays",
    summary: "Scan a container into a tray. A finding is an answer, not an error",
    body: trays.ScanIntoTray,
    answer: trays.ScannedIntoTray,
    status: 201,
    problems: ["not-found", "label-unreadable", "tray-not-open", "already-on-tray"],
  },
  removeFromTray: {
    tag: "trays",
    summary: "Take a container off the tray",
    answer: trays.TrayView,
    status: 200,
    problems: ["not-found", "tray-not-open"],
  },
  clearTray: {
    tag: "trays",
    summary: "Clear the tray; name what is empty",
    body: trays.ClearTray,
    answer: trays.TrayView,
    status: 200,
    problems: ["not-found", "tray-not-open", "not-on-tray", "record-not-complete"],
  },
  overrideFinding: {
    tag: "trays",
    summary: "Pass a stop, as a dentist, with a reason that stays for ever",
    body: trays.OverrideFinding,
    answer: trays.TrayView,
    status: 201,
    problems: ["not-found", "tray-not-open", "not-overridable", "already-overridden"],
  },
  changeAllergies: {
    tag: "trays",
    summary: "Change what a patient reacts to; every tray heeds it from its next check on",
    body: trays.ChangeAllergies,
    answer: trays.PatientView,
    status: 200,
    problems: ["not-found"],
  },

  traceStock: {
    ...getOne,
    tag: "withdrawals",
    summary: "Where is this lot, and who has it?",
    query: withdrawals.TraceQuery,
    answer: withdrawals.Trace,
  },
  tracePatient: {
    ...getOne,
    tag: "withdrawals",
    summary: "Which lots has this patient?",
    query: withdrawals.PatientQuery,
    answer: withdrawals.PatientTrace,
  },
  listWithdrawals: {
    ...get,
    tag: "withdrawals",
    summary: "Withdrawals, newest first",
    answer: withdrawals.Withdrawals,
  },
  openWithdrawal: {
    tag: "withdrawals",
    summary: "Enter a notice: from now on nothing it covers passes a check",
    body: withdrawals.OpenWithdrawal,
    answer: withdrawals.WithdrawalView,
    status: 201,
    problems: ["not-found", "name-taken"],
  },
  getWithdrawal: {
    ...getOne,
    tag: "withdrawals",
    summary: "One withdrawal with its trace",
    answer: withdrawals.WithdrawalView,
  },
  segregate: {
    tag: "withdrawals",
    summary: "Move all that it covers here into quarantine",
    answer: withdrawals.Segregated,
    status: 200,
    problems: ["not-found", "withdrawal-closed"],
  },
  closeWithdrawal: {
    tag: "withdrawals",
    summary: "Close the case with a summary",
    body: withdrawals.CloseWithdrawal,
    answer: withdrawals.WithdrawalView,
    status: 200,
    problems: ["not-found", "withdrawal-closed"],
  },

  listen: {
    ...get,
    tag: "overview",
    summary: "Server-sent events: ready, changed (actions), verdicts (trays whose check changed)",
    query: live.LiveQuery,
    answer: { media: ["text/event-stream"] },
  },
  listVerdictChanges: {
    ...get,
    tag: "overview",
    summary: "Trays whose verdict changed within a day without anybody touching them",
    answer: live.VerdictChanges,
  },
  getCheckStatistics: {
    ...get,
    tag: "overview",
    summary: "How often each finding was seen, and how often priming started with it, by month",
    query: live.CheckStatisticsQuery,
    answer: live.CheckStatistics,
  },
  getToday: { ...get, tag: "overview", summary: "What needs somebody now", answer: overview.Today },
  listAudit: {
    ...get,
    tag: "overview",
    summary: "The audit trail, newest first",
    query: overview.AuditQuery,
    answer: overview.Audit,
  },
  verifyAudit: {
    ...get,
    tag: "overview",
    summary: "Check the audit chain, the ledger and every signed record",
    answer: overview.Verification,
  },
} as const satisfies Record<string, Operation>;
