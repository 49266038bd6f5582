import type { ProvisionalKind, TrayState } from "#domain";
import { restorationsEn } from "./restorations.ts";

const days = (count: number): string => `${count} ${count === 1 ? "day" : "days"}`;

/** The texts of the second visit, in English. Own wording. */
export const waitingEn = {
  title: "Waiting for bonding",
  lead: "Sealed teeth whose restoration is not bonded yet, the longest waiting first.",
  toRecords: "All records",
  fromRecords: "Waiting for bonding",
  limit: (limit: number) => `Overdue after ${days(limit)}.`,
  lists: { waiting: "All that wait", overdue: "Overdue", off: "Taken off the list" },
  which: "Which",
  chart: "Chart number",
  search: "Search",
  more: "Show more",
  empty: {
    waiting: "No sealed tooth waits for its restoration.",
    overdue: "No restoration is overdue.",
    off: "Nobody took a tooth off the list.",
  },
  tooth: (tooth: string, chart: string) => `Tooth ${tooth}, chart ${chart}`,
  days,
  overdue: "overdue",
  sealed: (date: string) => `Sealed ${date}`,
  record: "Sealing record",
  cement: (name: string, lot: string | null) =>
    lot === null ? `${name}, lot not scanned` : `${name}, lot ${lot}`,
  noCement: "no provisional cement noted",
  planned: (date: string) => `bonding was planned for ${date}`,
  plan: "Plan bonding visit",
  visit: (when: string) => `Bonding on ${when}`,
  states: {
    planned: "planned",
    setting: "tray being set",
    ready: "tray ready",
    "in-use": "under way",
    cleared: "over",
  } satisfies Record<TrayState, string>,
  provisionals: {
    none: "no provisional planned",
    resin: "resin provisional",
    other: "provisional",
  } satisfies Record<ProvisionalKind, string>,
  restorations: restorationsEn,
  needs: {
    title: "What the sealed surface needs",
    of: (count: number) => `What the surface needs (${count})`,
    ifuFirst:
      "In this order, and as the instructions for use of bonding system and cement say: they come " +
      "first. The dentist decides.",
    seal: (date: string, count: number) => `Sealed ${date}, ${days(count)} before the bonding`,
    none: "No seal of this tooth waits here. Look at the surface before bonding.",
    source: "Where this comes from",
  },
  choice: {
    title: "Which seal is bonded to?",
    text: "No seal waits, or more than one: say it for each tooth before priming starts.",
    first: "Say first which seal is bonded to.",
    of: (tooth: string) => `Tooth ${tooth}`,
    seal: (date: string) => `sealed ${date}`,
    bonded: (date: string) => `sealed ${date}, bonded before`,
    off: (date: string) => `sealed ${date}, taken off the list`,
    none: "no seal on record",
  },
  off: {
    button: "Take off the list",
    title: (tooth: string, chart: string) => `Tooth ${tooth}, chart ${chart}, waits no longer`,
    text: "The record stays. Whoever takes a tooth off the list, when and why stays as well.",
    reason: "Why",
    reasons: {
      "moved-away": "patient moved away",
      "tooth-lost": "tooth lost",
      "bonded-elsewhere": "bonded elsewhere",
      other: "something else",
    },
    note: "Note",
    noteNeeded: "Say why in a few words.",
    done: "Taken off the list",
    said: (reason: string, by: string, when: string) => `${reason}, said ${by}, ${when}`,
    back: "Put back onto the list",
    backDone: "Back onto the list",
  },
  columns: {
    chart: "Chart",
    tooth: "Tooth",
    sealed: "Sealed",
    days: "Days",
    overdue: "Overdue",
    restoration: "Restoration",
    provisional: "Provisional",
    cement: "Provisional cement",
    lot: "Lot of the cement",
    planned: "Bonding planned for",
    visit: "Bonding visit",
    needs: "What the surface needs",
    off: "Taken off because",
  },
  linked: {
    title: "Seal and bonding",
    seal: (date: string, count: number) =>
      `Builds on the seal signed ${date}, ${days(count)} before`,
    noSeal: "Builds on no seal on record.",
    bonding: (date: string, count: number) => `Bonded after ${days(count)}, signed ${date}`,
    waits: "Not bonded yet.",
    toSeal: "Open the sealing record",
    toBonding: "Open the bonding record",
    toWaiting: "See who waits",
  },
  today: {
    line: (count: number) =>
      count === 1 ? "1 restoration is overdue" : `${count} restorations are overdue`,
    detail: (longest: number, limit: number) =>
      `Sealed up to ${days(longest)} ago, no bonding visit has a tray · limit here: ${days(limit)}`,
    action: "See who waits",
  },
};
