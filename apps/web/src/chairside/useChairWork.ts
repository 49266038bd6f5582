import { useQueryClient } from "@tanstack/react-query";
import { useCallback, useContext, useEffect, useState } from "react";
import type { BodyOf } from "#contracts/operations";
import { keyOf, showAnswer } from "../api/queries.ts";
import { serverNowMs } from "../api/server-clock.ts";
import { useOutboxWrite } from "../outbox/OutboxProvider.tsx";
import { playSound } from "../scanner/sounds.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { useSayError } from "../ui/States.tsx";
import { ToldTime } from "./late-time.ts";

/**
 * Writes what happens at a step on one tooth or several, through the outbox; says so where the
 * server refuses it, and answers whether it took all.
 */
export function useRecordEvent(
  recordIds: readonly string[],
): (body: BodyOf<"addRecordEvent">, about: string) => Promise<boolean> {
  const write = useOutboxWrite();
  const queries = useQueryClient();
  const announce = useAnnounce();
  const sayError = useSayError();
  const toldTime = useContext(ToldTime);
  const ids = recordIds.join(" ");
  return useCallback(
    async (body, about) => {
      const occurredAt = toldTime ?? new Date(serverNowMs()).toISOString();
      const writeOne = async (recordId: string): Promise<boolean> => {
        try {
          await write({
            route: "addRecordEvent",
            params: { recordId },
            body: { ...body, occurredAt },
            about,
            belongsTo: recordId,
            onAnswer: (record) =>
              showAnswer(queries, keyOf("getRecord", { params: { recordId } }), record),
          });
          return true;
        } catch (error) {
          playSound("look");
          announce({ text: `${about}. ${sayError(error)}`, tone: "bad" });
          void queries.invalidateQueries({ queryKey: ["getRecord"] });
          return false;
        }
      };
      const taken = await Promise.all(ids.split(" ").map(writeOne));
      return taken.every(Boolean);
    },
    [write, queries, announce, sayError, ids, toldTime],
  );
}

/** Keeps the screen on, where the browser allows it; says whether it does. */
export function useWakeLock(): boolean {
  const [isAwake, setAwake] = useState(false);
  useEffect(() => {
    let lock: WakeLockSentinel | null = null;
    let left = false;
    async function hold(): Promise<void> {
      if (document.visibilityState !== "visible" || !("wakeLock" in navigator)) return;
      try {
        lock = await navigator.wakeLock.request("screen");
        if (left) await lock.release();
        else setAwake(true);
      } catch {
        setAwake(false);
      }
    }
    const again = () => void hold();
    void hold();
    document.addEventListener("visibilitychange", again);
    return () => {
      left = true;
      document.removeEventListener("visibilitychange", again);
      void lock?.release();
    };
  }, []);
  return isAwake;
}
