import { useQueryClient } from "@tanstack/react-query";
import { useEffect, useRef } from "react";
import { useLocation } from "wouter";
import type { RouteName } from "#contracts/routes";
import { addressOf } from "../api/client.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { listenOnce } from "./listen-once.ts";

/** What the pages that stay open show, and others change. */
const moving: readonly RouteName[] = [
  "getTray",
  "listTrays",
  "getToday",
  "getRecord",
  "listRecords",
  "listWaiting",
  "getTraySeals",
  "listContainers",
  "getContainer",
  "listVerdictChanges",
  "listWithdrawals",
  "getWithdrawal",
];
/** Several changes in a row are fetched once. */
const restMs = 400;

/** Keeps open pages true while others work, and says when a tray's check changed by itself. */
export function useLive(): void {
  const queries = useQueryClient();
  const { live: t } = useTexts();
  const announce = useAnnounce();
  const [, navigate] = useLocation();
  const tell = (trayIds: readonly string[]): void => {
    const [only, ...others] = trayIds;
    if (only === undefined) return;
    const to = others.length === 0 ? paths.tray(only) : paths.today();
    const action = { label: t.look, act: () => navigate(to) };
    announce({ text: t.told(trayIds.length), tone: "bad", action });
  };
  const latest = useRef(tell);
  useEffect(() => {
    latest.current = tell;
  });
  useEffect(() => {
    let timer = 0;
    const fetchAgain = (): void => {
      for (const name of moving) void queries.invalidateQueries({ queryKey: [name] });
    };
    const stop = listenOnce(addressOf("listen", {}), (event) => {
      window.clearTimeout(timer);
      timer = window.setTimeout(fetchAgain, restMs);
      if (event.kind === "verdicts") latest.current(event.trayIds);
    });
    return () => {
      window.clearTimeout(timer);
      stop();
    };
  }, [queries]);
}
