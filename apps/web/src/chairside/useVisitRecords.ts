import { useQueries } from "@tanstack/react-query";
import { send } from "../api/client.ts";
import { keyOf } from "../api/queries.ts";
import type { RecordView } from "./steps.ts";

const checkEveryMs = 60_000;

/** The records of a visit's teeth, in their order; `null` until all are there. */
export function useVisitRecords(ids: readonly string[]): {
  records: readonly RecordView[] | null;
  error: unknown;
  retry: () => void;
} {
  const reads = useQueries({
    queries: ids.map((recordId) => ({
      queryKey: keyOf("getRecord", { params: { recordId } }),
      queryFn: async ({ signal }: { signal: AbortSignal }) =>
        (await send("getRecord", { params: { recordId }, signal })) as RecordView,
      refetchInterval: checkEveryMs,
    })),
  });
  const records = reads.flatMap(({ data }) => data ?? []);
  return {
    records: records.length === ids.length ? records : null,
    error: reads.find(({ error }) => error !== null)?.error ?? null,
    retry: () => {
      for (const read of reads) void read.refetch();
    },
  };
}
