import { useQueryClient } from "@tanstack/react-query";
import {
  createContext,
  useCallback,
  useContext,
  useEffect,
  useMemo,
  useSyncExternalStore,
  type ReactNode,
} from "react";
import type { AnswerOf, BodyOf, ParamsOf } from "#contracts/operations";
import type { RouteName } from "#contracts/routes";
import { keyOf } from "../api/queries.ts";
import { useSession, type Session } from "../session/session.ts";
import type { OutboxEntry } from "./entry.ts";
import { Outbox } from "./outbox.ts";
import { openStore } from "./store.ts";

const OutboxContext = createContext<Outbox | null>(null);
const otherTabs =
  typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel("tubule-outbox");
const triesEveryMs = 4_000;

/** Opens what this device has kept, before anything is shown that could add to it. */
export async function openOutbox(): Promise<Outbox> {
  const outbox = new Outbox({ store: await openStore() });
  await outbox.reload();
  return outbox;
}

const senderOf = (session: Session) => ({
  personId: session.person.id,
  practiceId: session.practice.id,
});

/** Keeps trying to send what waits, as long as somebody is signed in. */
export function OutboxProvider({ outbox, children }: { outbox: Outbox; children: ReactNode }) {
  const session = useSession();
  useEffect(() => {
    if (session === null) return undefined;
    const sendWaiting = () => void outbox.flush(senderOf(session));
    sendWaiting();
    const timer = window.setInterval(() => {
      if (outbox.snapshot().some((entry) => entry.refused === null)) sendWaiting();
    }, triesEveryMs);
    const leave = () => void outbox.release();
    window.addEventListener("online", sendWaiting);
    window.addEventListener("pagehide", leave);
    return () => {
      window.clearInterval(timer);
      window.removeEventListener("pagehide", leave);
      window.removeEventListener("online", sendWaiting);
    };
  }, [outbox, session]);
  useEffect(() => {
    const tell = outbox.onOwnChange(() => otherTabs?.postMessage("changed"));
    const hear = () => void outbox.reload();
    otherTabs?.addEventListener("message", hear);
    return () => {
      tell();
      otherTabs?.removeEventListener("message", hear);
    };
  }, [outbox]);
  return <OutboxContext value={outbox}>{children}</OutboxContext>;
}

function useOutboxObject(): Outbox {
  const outbox = useContext(OutboxContext);
  if (outbox === null) throw new Error("the outbox is used outside of its provider");
  return outbox;
}

/** Everything on this device that the server has not confirmed, of whomever it is. */
export function useOutboxEntries(): readonly OutboxEntry[] {
  const outbox = useOutboxObject();
  return useSyncExternalStore(outbox.subscribe, outbox.snapshot);
}

/** What is still waiting for one thing, such as a tray, oldest first. */
export function useWaitingFor(belongsTo: string): readonly OutboxEntry[] {
  const entries = useOutboxEntries();
  return useMemo(
    () => entries.filter((entry) => entry.belongsTo === belongsTo && entry.refused === null),
    [entries, belongsTo],
  );
}

export interface OutboxWrite<N extends RouteName> {
  route: N;
  params: ParamsOf<N>;
  body: BodyOf<N>;
  /** What a person calls it. */
  about: string;
  belongsTo: string;
  /** Shows the answer in the moment in which the write no longer waits. */
  onAnswer?: (answer: AnswerOf<N>) => void;
}

/** Writes through the outbox: kept first, sent in order; the answer comes when it is confirmed. */
export function useOutboxWrite() {
  const outbox = useOutboxObject();
  const session = useSession();
  const queries = useQueryClient();
  return useCallback(
    async <N extends RouteName>({ onAnswer, ...write }: OutboxWrite<N>): Promise<AnswerOf<N>> => {
      if (session === null) throw new Error("nobody is signed in to write in whose name");
      const { person, practice } = session;
      const who = { personId: person.id, personName: person.displayName, practiceId: practice.id };
      return outbox
        .add<N>({ ...write, ...who }, senderOf(session), onAnswer)
        .finally(() => void queries.invalidateQueries({ queryKey: keyOf("getToday") }));
    },
    [outbox, session, queries],
  );
}

/** Settling what was refused, and sending now. */
export function useOutboxActions() {
  const outbox = useOutboxObject();
  const session = useSession();
  return useMemo(
    () => ({
      lasting: outbox.lasting,
      sendNow: () => (session === null ? undefined : outbox.flush(senderOf(session))),
      sendAgain: (key: string) =>
        session === null ? undefined : outbox.sendAgain(key, senderOf(session)),
      letGo: (key: string) => outbox.letGo(key),
    }),
    [outbox, session],
  );
}
