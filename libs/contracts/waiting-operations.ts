/** The second visit: which sealed teeth wait, and for what. */
import { get, getOne, type Operation } from "./operation.ts";
import * as waiting from "./waiting.ts";

export const waitingOperations = {
  listWaiting: {
    ...get,
    tag: "records",
    summary: "Sealed teeth that wait for their restoration, the longest waiting first",
    query: waiting.WaitingQuery,
    answer: waiting.WaitingSeals,
  },
  changeWaiting: {
    tag: "records",
    summary: "Take a sealed tooth off the list with a reason, or put it back",
    body: waiting.ChangeWaiting,
    answer: waiting.WaitingSeal,
    status: 201,
    problems: ["not-found", "waiting-unchanged"],
  },
  getTraySeals: {
    ...getOne,
    tag: "trays",
    summary: "The seals that a bonding visit can build on, with what each surface needs",
    answer: waiting.TraySeals,
  },
} as const satisfies Record<string, Operation>;
