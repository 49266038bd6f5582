import { useRef, useState } from "react";
import type { BodyOf, QueryOf } from "#contracts/operations";
import { addressOf, fetchFile } from "../api/client.ts";
import { useRefresh, useWrite } from "../api/queries.ts";
import { saveFile } from "../ui/save-file.ts";
import { useJob } from "./useJob.ts";

export type Subject = BodyOf<"makeLabels">["subjects"][number];
export type DocumentQuery = QueryOf<"getLabelDocument">;

/** Which labels: of each thing so many, from which one on. */
export interface Batch {
  copies: number;
  from: number;
}

/** What was done, to be said to the person. */
export type Outcome =
  | { kind: "sent"; labels: number; printer: string }
  | { kind: "pdf"; address: string; isOpen: boolean }
  | { kind: "saved" };

export interface Printing {
  toPrinter: (printerId: string, batch: Batch) => void;
  toPdf: (query: DocumentQuery, batch: Batch, onMade?: () => void) => void;
  toFile: (query: DocumentQuery, batch: Batch) => void;
  /** Puts away what was said of the last time: the same run can be printed again. */
  reset: () => void;
  outcome: Outcome | null;
  error: unknown;
  busy: boolean;
}

/** Prints things' labels one way or another; what is printed again meanwhile is the same run. */
export function usePrinting(subjects: readonly Subject[], reprintOf?: string): Printing {
  const getRun = useRun(subjects, reprintOf);
  const sendJob = useJob("printRun");
  const [state, setState] = useState<Pick<Printing, "outcome" | "error" | "busy">>(atRest);
  const act = (work: () => Promise<Outcome>) => {
    setState({ ...atRest, busy: true });
    work().then(
      (outcome) => setState({ ...atRest, outcome }),
      (error: unknown) => setState({ ...atRest, error }),
    );
  };
  return {
    ...state,
    reset: () => setState(atRest),
    toPrinter: (printerId, { copies, from }) =>
      act(async () => {
        const runId = await getRun(copies);
        return {
          kind: "sent",
          ...(await sendJob({ params: { printerId }, body: { runId, from } })),
        };
      }),
    toPdf: (query, { copies, from }, onMade) => {
      // Opened while the tap still counts as one: later the browser would keep it shut.
      const tab = window.open("", "_blank");
      act(async () => {
        try {
          const asked = { params: { runId: await getRun(copies) }, query: { ...query, from } };
          // What cannot be drawn is said here, not in a bare tab.
          await fetchFile("getLabelDocument", asked);
          const address = addressOf("getLabelDocument", asked);
          if (tab !== null) tab.location.href = address;
          onMade?.();
          return { kind: "pdf", address, isOpen: tab !== null };
        } catch (error) {
          tab?.close();
          throw error;
        }
      });
    },
    toFile: (query, { copies, from }) =>
      act(async () => {
        const runId = await getRun(copies);
        const asked = { params: { runId }, query: { ...query, from } };
        saveFile(await fetchFile("getLabelDocument", asked), `labels.${query.format}`);
        return { kind: "saved" };
      }),
  };
}

const atRest = { outcome: null, error: null, busy: false };

function useRun(subjects: readonly Subject[], reprintOf?: string) {
  const make = useWrite("makeLabels");
  const refresh = useRefresh();
  const made = useRef({ copies: 0, runId: "" });
  return async (copies: number): Promise<string> => {
    if (made.current.copies === copies) return made.current.runId;
    const ofRun = reprintOf === undefined ? {} : { reprintOf };
    const { id } = await make.mutateAsync({ body: { subjects: [...subjects], copies, ...ofRun } });
    made.current = { copies, runId: id };
    refresh("listLabelRuns");
    return id;
  };
}
