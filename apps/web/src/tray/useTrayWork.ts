import { useQueryClient } from "@tanstack/react-query";
import { useCallback, useEffect, useMemo, useState } from "react";
import type { AnswerOf } from "#contracts/operations";
import { sayFinding } from "#texts";
import { keyOf, showAnswer, useRead, useRefresh } from "../api/queries.ts";
import { useOutboxWrite, useWaitingFor } from "../outbox/OutboxProvider.tsx";
import { tokensOfDevice } from "../scanner/device-profile.ts";
import { textsOf, type ScanTexts } from "../scanner/scan.ts";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { useSayError } from "../ui/States.tsx";
import type { PendingScan, Tray, TrayItem } from "./columns.ts";
import { listRemoved, nameScan, readPending, type KnownStock } from "./pending.ts";

const nothingKnown: KnownStock = { containers: [], products: [] };

/** The stock and catalogue as last heard, for answers without waiting. */
export function useKnownStock(): KnownStock {
  const containers = useRead(
    "listContainers",
    { query: { here: "true", limit: 500 } },
    { staleMs: 60_000 },
  );
  const products = useRead("listProducts", {}, { staleMs: 300_000 });
  return useMemo(
    () => ({
      containers: containers.data?.containers ?? nothingKnown.containers,
      products: products.data?.products ?? nothingKnown.products,
    }),
    [containers.data, products.data],
  );
}

/** What is on its way to the server for a tray: scans and removals not yet confirmed. */
export function useTrayPending(trayId: string): {
  pending: readonly PendingScan[];
  removed: ReadonlySet<string>;
  count: number;
} {
  const entries = useWaitingFor(trayId);
  const stock = useKnownStock();
  const describe = useDescribe();
  const { today } = useFormats();
  const [nowMs, setNowMs] = useState(Date.now);
  useEffect(() => {
    if (entries.length === 0) return undefined;
    const timer = window.setInterval(() => setNowMs(Date.now()), 500);
    return () => window.clearInterval(timer);
  }, [entries.length]);
  return useMemo(
    () => ({
      pending: readPending(entries, stock, { today: today(), nowMs, describe }),
      removed: listRemoved(entries),
      count: entries.length,
    }),
    [entries, stock, today, nowMs, describe],
  );
}

/** Lot and last day, as one short text. */
export function useDescribe(): (lot: string | null, end: string | null) => string {
  const t = useTexts();
  const { shortDate } = useFormats();
  return useCallback(
    (lot, end) =>
      [
        lot === null ? "" : `${t.common.lot} ${lot}`,
        end === null ? "" : t.common.ends(shortDate(end)),
      ]
        .filter((part) => part !== "")
        .join(" · "),
    [t, shortDate],
  );
}

// One sound a scan where the server answers at once; without its answer the label alone is told.
const soundWaitsMs = 150;

type Scanned = AnswerOf<"scanIntoTray">;

/** Scanning into a tray: said at once by what this device knows, then by the server's check. */
export function useScanIntoTray(tray: Tray): (scan: ScanTexts) => void {
  const t = useTexts();
  const write = useOutboxWrite();
  const stock = useKnownStock();
  const describe = useDescribe();
  const announce = useAnnounce();
  const sayError = useSayError();
  const { today } = useFormats();
  const answered = useAnswered(tray);
  return useCallback(
    (scan) => {
      const { name, detail } = nameScan(scan, stock, { today: today(), describe });
      const patience = window.setTimeout(() => playSound("taken"), soundWaitsMs);
      announce({ text: t.scan.read([name, detail].filter((part) => part !== "").join(" · ")) });
      write({
        route: "scanIntoTray",
        params: { trayId: tray.id },
        body: { ...textsOf(scan), scannedAt: new Date().toISOString() },
        about: name,
        belongsTo: tray.id,
        onAnswer: (answer) => {
          window.clearTimeout(patience);
          answered(answer);
        },
      }).catch((error: unknown) => {
        window.clearTimeout(patience);
        playSound("look");
        announce({ text: `${t.outbox.refusedToast(name)}. ${sayError(error)}`, tone: "bad" });
      });
    },
    [t, stock, today, describe, announce, sayError, write, tray.id, answered],
  );
}

/** Shows the server's answer to a scan over what this device said itself. */
function useAnswered(tray: Tray): (answer: Scanned) => void {
  const queries = useQueryClient();
  const refresh = useRefresh();
  const announce = useAnnounce();
  const { language } = useFormats();
  const { id, technique } = tray;
  return useCallback(
    ({ item, check }) => {
      queries.setQueryData<Tray>(keyOf("getTray", { params: { trayId: id } }), (before) =>
        before === undefined
          ? before
          : {
              ...before,
              check,
              items: [...before.items.filter((one) => one.id !== item.id), item],
            },
      );
      refresh("getTray", "listContainers");
      const about = check.findings.filter(
        ({ subject, level }) => subject.itemId === item.id && level !== "info",
      );
      const worst = about[0];
      const step = technique.steps.find(({ key }) => key === item.stepKeys[0])?.name ?? "";
      const name = item.productName ?? item.reading.identifier?.value ?? item.barcode;
      if (worst === undefined) {
        playSound("taken");
        announce({ text: [name, step].filter((part) => part !== "").join(" → ") });
        return;
      }
      playSound("look");
      const { title, sentence } = sayFinding(language, worst);
      announce({ text: `${title}. ${sentence}`, tone: worst.level === "stop" ? "bad" : "look" });
    },
    [queries, refresh, announce, language, id, technique],
  );
}

/** Takes a container off the tray; undone by scanning the same label again. */
export function useRemoveFromTray(tray: Tray): (item: TrayItem) => void {
  const t = useTexts();
  const write = useOutboxWrite();
  const announce = useAnnounce();
  const queries = useQueryClient();
  const sayError = useSayError();
  const scanAgain = useScanIntoTray(tray);
  return (item) => {
    const name = item.productName ?? item.barcode;
    write({
      route: "removeFromTray",
      params: { trayId: tray.id, itemId: item.id },
      body: undefined,
      about: name,
      belongsTo: tray.id,
      onAnswer: (answer) =>
        showAnswer(queries, keyOf("getTray", { params: { trayId: tray.id } }), answer),
    }).catch((error: unknown) => announce({ text: sayError(error), tone: "bad" }));
    const barcodes = item.barcode.split("\n");
    const undo = { label: t.common.undo, act: () => scanAgain({ barcodes, ...tokensOfDevice() }) };
    announce({ text: t.tray.removed(name), action: undo });
  };
}
