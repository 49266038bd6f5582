import { useQueryClient } from "@tanstack/react-query";
import { useCallback, useEffect, useState } from "react";
import type { BodyOf } from "#contracts/operations";
import { keyOf } from "../api/queries.ts";
import { useOutboxWrite } from "../outbox/OutboxProvider.tsx";
import { playSound } from "../scanner/sounds.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { readRemembered, remember } from "../ui/remembered.ts";
import { useSayError } from "../ui/States.tsx";
import type { RecordView } from "./steps.ts";
import { readTimer, type StepTimer } from "./timer.ts";

/** The step's clock, kept on this device so that a reload does not stop it. */
export function useStepTimer(
  recordId: string,
): [StepTimer | null, (timer: StepTimer | null) => void] {
  const name = `timer.${recordId}`;
  const [timer, setTimer] = useState(() => readTimer(readRemembered(name)));
  const keep = useCallback(
    (next: StepTimer | null) => {
      remember(name, next === null ? null : JSON.stringify(next));
      setTimer(next);
    },
    [name],
  );
  return [timer, keep];
}

/** Writes what happens at a step, through the outbox; says so where the server refuses it. */
export function useRecordEvent(
  recordId: string,
): (body: BodyOf<"addRecordEvent">, about: string) => Promise<boolean> {
  const write = useOutboxWrite();
  const queries = useQueryClient();
  const announce = useAnnounce();
  const sayError = useSayError();
  return useCallback(
    async (body, about) => {
      const occurredAt = new Date().toISOString();
      try {
        await write({
          route: "addRecordEvent",
          params: { recordId },
          body: { ...body, occurredAt },
          about,
          belongsTo: recordId,
          onAnswer: (record) =>
            queries.setQueryData<RecordView>(keyOf("getRecord", { params: { recordId } }), record),
        });
        return true;
      } catch (error) {
        playSound("look");
        announce({ text: `${about}. ${sayError(error)}`, tone: "bad" });
        void queries.invalidateQueries({ queryKey: ["getRecord"] });
        return false;
      }
    },
    [write, queries, announce, sayError, recordId],
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
