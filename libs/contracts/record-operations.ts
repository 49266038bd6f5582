/** What was done to a tooth: written, signed, amended, printed. */
import { get, getOne, type Operation } from "./operation.ts";
import * as records from "./records.ts";

export const recordOperations = {
  startRecord: {
    tag: "records",
    summary: "Start priming: the check is made again at this moment",
    body: records.StartRecord,
    answer: records.StartedRecords,
    status: 201,
    problems: ["not-found", "verdict-stops", "tray-not-open"],
  },
  listRecords: {
    ...get,
    tag: "records",
    summary: "Records, newest first",
    query: records.RecordQuery,
    answer: records.Records,
  },
  getRecord: { ...getOne, tag: "records", summary: "One record", answer: records.RecordView },
  getRecordDocument: {
    tag: "records",
    summary: "The record as PDF/A, in the language of whoever asks",
    query: records.PaperQuery,
    answer: { media: ["application/pdf"] },
    status: 200,
    problems: ["not-found"],
  },
  getMaterialCard: {
    tag: "records",
    summary: "A card for the patient: tooth, day, and materials with their lots",
    query: records.PaperQuery,
    answer: { media: ["application/pdf"] },
    status: 200,
    problems: ["not-found"],
  },
  addRecordEvent: {
    tag: "records",
    summary: "Write what happens at a step",
    body: records.AddRecordEvent,
    answer: records.RecordView,
    status: 201,
    problems: ["not-found", "record-signed", "verdict-stops", "not-on-tray", "step-required"],
  },
  swapContainer: {
    tag: "records",
    summary: "Go on with another container; both lots stay on the step",
    body: records.SwapContainer,
    answer: records.RecordView,
    status: 201,
    problems: [
      "not-found",
      "record-signed",
      "label-unreadable",
      "already-on-tray",
      "not-on-tray",
      "verdict-stops",
    ],
  },
  signRecord: {
    tag: "records",
    summary: "Sign: the record is sealed and never changes",
    body: records.SignRecord,
    answer: records.RecordView,
    status: 200,
    problems: [
      "not-found",
      "record-signed",
      "record-not-complete",
      "wrong-credentials",
      "locked-out",
    ],
  },
} as const satisfies Record<string, Operation>;
