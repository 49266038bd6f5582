import { useEffect, type ReactNode } from "react";
import { useRead } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Page } from "../ui/Page.tsx";
import { QueryView } from "../ui/States.tsx";
import { useWakeLock } from "./useChairWork.ts";
import { VerdictScreen } from "./VerdictScreen.tsx";
import { VisitWork } from "./VisitWork.tsx";
import "../tray/tray.css";
import "./chairside.css";
import "./visit.css";

const checkEveryMs = 60_000;

/** At the chair: may I prime? Then one step at a time, then the signature. */
export default function ChairsidePage({ trayId }: { trayId: string }): ReactNode {
  const t = useTexts();
  const isAwake = useWakeLock();
  const tray = useRead("getTray", { params: { trayId } }, { everyMs: checkEveryMs, staleMs: 0 });
  const { refetch } = tray;
  // What was checked a minute ago on another page is not the check of this moment.
  useEffect(() => {
    void refetch();
  }, [refetch]);
  if (tray.data === undefined) {
    return (
      <Page title={t.chairside.checking}>
        <QueryView query={tray}>{() => null}</QueryView>
      </Page>
    );
  }
  return tray.data.records.length === 0 ? (
    <VerdictScreen tray={tray.data} query={tray} isAwake={isAwake} />
  ) : (
    <VisitWork tray={tray.data} isAwake={isAwake} />
  );
}
