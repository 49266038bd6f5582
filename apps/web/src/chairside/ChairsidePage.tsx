import { useEffect, type ReactNode } from "react";
import { useRead } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Page } from "../ui/Page.tsx";
import { QueryView } from "../ui/States.tsx";
import { RecordWork } from "./RecordWork.tsx";
import { useWakeLock } from "./useChairWork.ts";
import { VerdictScreen } from "./VerdictScreen.tsx";
import "../tray/tray.css";
import "./chairside.css";

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
  const { records } = tray.data;
  const [next] = [...records.filter(({ state }) => state === "draft"), ...records];
  return next === undefined ? (
    <VerdictScreen tray={tray.data} query={tray} isAwake={isAwake} />
  ) : (
    <RecordPart key={next.id} recordId={next.id} isAwake={isAwake} />
  );
}

function RecordPart({ recordId, isAwake }: { recordId: string; isAwake: boolean }): ReactNode {
  const t = useTexts();
  const record = useRead("getRecord", { params: { recordId } }, { everyMs: checkEveryMs });
  if (record.data === undefined) {
    return (
      <Page title={t.chairside.checking}>
        <QueryView query={record}>{() => null}</QueryView>
      </Page>
    );
  }
  return <RecordWork record={record.data} isAwake={isAwake} />;
}
