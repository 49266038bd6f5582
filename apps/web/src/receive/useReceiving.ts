import { useCallback, useEffect, useRef, useState } from "react";
import type { AnswerOf } from "#contracts/operations";
import { call } from "../api/client.ts";
import { useRefresh } from "../api/queries.ts";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import {
  keepAttempts,
  makeAttempt,
  makeConflict,
  markAttempt,
  readAttempts,
  renewAttempt,
  type Attempt,
  type ReceiveBody,
} from "./attempts.ts";

type Line = AnswerOf<"receive">;

export interface Receiving {
  attempts: readonly Attempt[];
  /** The line received last since the page was opened. */
  newestId: string | null;
  receive: (body: ReceiveBody) => void;
  /** Puts a pack whose labels contradict each other on the list of what is kept apart. */
  setAside: (body: ReceiveBody) => void;
  /** Sends once more, perhaps with what the label lacked. */
  retry: (key: string, change?: Partial<ReceiveBody>) => void;
  /** Takes a refused pack off the list. */
  settle: (key: string) => void;
}

/** Receives packs one after the other, in the order of their scans; none is lost on the way. */
export function useReceiving(deliveryId: string, onRefused: (attempt: Attempt) => void): Receiving {
  const [attempts, setAttempts] = useState(() => readAttempts(deliveryId));
  const [newestId, setNewestId] = useState<string | null>(null);
  const told = useTold(setNewestId);
  const refused = useRef(onRefused);
  useEffect(() => {
    refused.current = onRefused;
  });
  useEffect(() => keepAttempts(deliveryId, attempts), [deliveryId, attempts]);

  const settle = useCallback(
    (key: string) => setAttempts((before) => before.filter((one) => one.key !== key)),
    [],
  );
  const send = useCallback(
    async (attempt: Attempt) => {
      try {
        const { body, key } = attempt;
        told(await call("receive", { params: { deliveryId }, body, key }));
        settle(key);
      } catch (error) {
        playSound("look");
        const marked = markAttempt(attempt, error);
        setAttempts((before) => before.map((one) => (one.key === attempt.key ? marked : one)));
        if (marked.state === "refused") refused.current(marked);
      }
    },
    [deliveryId, settle, told],
  );
  const queue = useQueue(send);
  useEffect(() => {
    for (const attempt of readAttempts(deliveryId)) if (attempt.state === "sending") queue(attempt);
  }, [deliveryId, queue]);

  return {
    attempts,
    newestId,
    settle,
    receive: (body) => {
      const attempt = makeAttempt(body);
      setAttempts((before) => [...before, attempt]);
      queue(attempt);
    },
    setAside: (body) => {
      playSound("look");
      setAttempts((before) => [...before, makeConflict(body)]);
    },
    retry: (key, change) => {
      const attempt = attempts.find((one) => one.key === key);
      if (attempt === undefined) return;
      const again = renewAttempt(attempt, change);
      setAttempts((before) => before.map((one) => (one.key === key ? again : one)));
      queue(again);
    },
  };
}

/** Sends one after the other, and nothing twice while it is under way. */
function useQueue(send: (attempt: Attempt) => Promise<void>): (attempt: Attempt) => void {
  const last = useRef(Promise.resolve());
  const underWay = useRef(new Set<string>());
  return useCallback(
    (attempt) => {
      if (underWay.current.has(attempt.key)) return;
      underWay.current.add(attempt.key);
      last.current = last.current
        .then(() => send(attempt))
        .finally(() => underWay.current.delete(attempt.key));
    },
    [send],
  );
}

/** Says that a pack is received, by sound and words. */
function useTold(onReceived: (lineId: string) => void): (line: Line) => void {
  const t = useTexts();
  const announce = useAnnounce();
  const refresh = useRefresh();
  return useCallback(
    (line) => {
      playSound("taken");
      onReceived(line.id);
      announce({ text: t.receive.received(line.product.name, line.lot) });
      refresh("getDelivery", "listDeliveries", "listContainers", "getToday", "listBalances");
    },
    [t, announce, refresh, onReceived],
  );
}
