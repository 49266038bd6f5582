import { useQuery, useQueryClient } from "@tanstack/react-query";
import { createContext, useCallback, useContext } from "react";
import type { Role } from "#domain";
import type { AnswerOf } from "#contracts/operations";
import { call } from "../api/client.ts";
import { ApiProblem } from "../api/problem.ts";

export type Session = AnswerOf<"getSession">;

/** `null` where nobody is signed in. */
export const SessionContext = createContext<Session | null>(null);

/** Who is signed in; `null` on the pages before signing in. */
export function useSession(): Session | null {
  return useContext(SessionContext);
}

/** Who is signed in, on pages that nobody reaches otherwise. */
export function useSignedIn(): Session {
  const session = useContext(SessionContext);
  if (session === null) throw new Error("a page for the signed-in was shown to nobody");
  return session;
}

/** Whether the person has one of the roles. */
export function useHasRole(...roles: readonly Role[]): boolean {
  const held = useContext(SessionContext)?.person.roles ?? [];
  return roles.some((role) => held.includes(role));
}

async function fetchSession(): Promise<Session | null> {
  try {
    return await call("getSession");
  } catch (error) {
    if (error instanceof ApiProblem && error.code === "not-signed-in") return null;
    throw error;
  }
}

const sessionKey = ["getSession"];

export function useSessionQuery() {
  return useQuery({
    queryKey: sessionKey,
    queryFn: fetchSession,
    staleTime: 60_000,
    // A tablet left with "the server does not answer" finds it again by itself.
    refetchInterval: ({ state }) => (state.data === undefined ? 4_000 : false),
  });
}

/** Takes over a new session: what the person before could see is forgotten. */
export function useTakeSession(): (session: Session | null) => void {
  const queries = useQueryClient();
  return useCallback(
    (session) => {
      queries.removeQueries({ predicate: ({ queryKey }) => queryKey[0] !== sessionKey[0] });
      queries.setQueryData(sessionKey, session);
    },
    [queries],
  );
}
