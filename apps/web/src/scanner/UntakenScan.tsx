import { useEffect, useRef, type ReactNode } from "react";
import { useLocation } from "wouter";
import { DoubtedScan } from "./DoubtedScan.tsx";
import { NotRead } from "./NotRead.tsx";
import { useUntakenScan } from "./ScanProvider.tsx";
import { WhatIsThis } from "./WhatIsThis.tsx";

/** Shows a scan that nothing on the page took: why it was not read, or what it is. */
export function UntakenScan(): ReactNode {
  const { untaken, putAway, doubted, settleDoubt } = useUntakenScan();
  const [location] = useLocation();
  const doubting = useRef(settleDoubt);
  useEffect(() => {
    doubting.current = settleDoubt;
  });
  useEffect(() => {
    putAway();
    doubting.current(false);
  }, [location, putAway]);
  if (doubted !== null) return <DoubtedScan scan={doubted} onSettle={settleDoubt} />;
  if (untaken === null) return null;
  const key = untaken.barcodes.join("\n");
  return untaken.reading.kind === "unreadable" ? (
    <NotRead key={key} scan={untaken} onClose={putAway} />
  ) : (
    <WhatIsThis key={key} scan={untaken} onClose={putAway} />
  );
}
