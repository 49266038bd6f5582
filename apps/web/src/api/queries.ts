/** React Query around the API: a read is known by its operation, parameters and query. */
import {
  QueryClient,
  useMutation,
  useQuery,
  useQueryClient,
  type UseQueryResult,
} from "@tanstack/react-query";
import { useRef } from "react";
import type { AnswerOf } from "#contracts/operations";
import type { RouteName } from "#contracts/routes";
import { send, type CallInput, type LooseInput } from "./client.ts";
import { Unreachable } from "./problem.ts";
import { makeUuid } from "./uuid.ts";

export function makeQueryClient(): QueryClient {
  return new QueryClient({
    defaultOptions: {
      queries: {
        // The server is on the local network: the browser's idea of being online says nothing.
        networkMode: "always",
        staleTime: 5_000,
        gcTime: 30 * 60_000,
        retry: (failures, error) => error instanceof Unreachable && failures < 1,
      },
      mutations: { networkMode: "always", retry: false },
    },
  });
}

/** How a read is kept. Giving the name alone matches every read of the operation. */
export function keyOf<N extends RouteName>(name: N, input: LooseInput = {}): readonly unknown[] {
  const parts: unknown[] = [name];
  if (input.params !== undefined) parts.push(input.params);
  if (input.query !== undefined) parts.push(input.query);
  return parts;
}

/**
 * Shows the whole answer of a write in the place of what was read before. A read under way may have
 * begun before the write and would put the older state back: it is given up.
 */
export function showAnswer<T>(queries: QueryClient, key: readonly unknown[], answer: T): void {
  void queries.cancelQueries({ queryKey: key, exact: true });
  queries.setQueryData<unknown>(key, answer);
}

interface ReadOptions {
  enabled?: boolean;
  /** Fetch again every so many milliseconds while the page is seen. */
  everyMs?: number;
  staleMs?: number;
}

/** Reads an operation: `useRead("getTray", { params: { trayId } })`. */
export function useRead<N extends RouteName>(
  name: N,
  input: CallInput<N> | Record<string, never> = {},
  { enabled = true, everyMs, staleMs }: ReadOptions = {},
): UseQueryResult<AnswerOf<N>> {
  const loose = input as LooseInput;
  return useQuery({
    queryKey: keyOf(name, loose),
    queryFn: async ({ signal }) => (await send(name, { ...loose, signal })) as AnswerOf<N>,
    enabled,
    ...(everyMs === undefined ? {} : { refetchInterval: everyMs }),
    ...(staleMs === undefined ? {} : { staleTime: staleMs }),
  });
}

/**
 * Writes an operation while a person waits for its answer. The same input sent again after a lost
 * answer goes under the same key, so its effect is one. What must survive a lost network goes
 * through the outbox instead.
 */
export function useWrite<N extends RouteName>(
  name: N,
  onDone: (answer: AnswerOf<N>, input: CallInput<N>) => void = () => {},
) {
  const last = useRef({ content: "", key: "" });
  return useMutation({
    mutationFn: async (input: CallInput<N>) => {
      const loose = input as LooseInput;
      const content = JSON.stringify([loose.params, loose.body]);
      if (last.current.content !== content) last.current = { content, key: makeUuid() };
      const answer = await send(name, { ...loose, key: last.current.key });
      last.current = { content: "", key: "" };
      return answer as AnswerOf<N>;
    },
    onSuccess: onDone,
  });
}

/** Marks reads as old, so that those on screen are fetched again. */
export function useRefresh(): (...names: readonly RouteName[]) => void {
  const queries = useQueryClient();
  return (...names) => {
    for (const name of names) void queries.invalidateQueries({ queryKey: [name] });
  };
}
