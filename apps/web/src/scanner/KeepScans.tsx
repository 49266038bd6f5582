import { useEffect, useRef, type ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Loading } from "../ui/States.tsx";
import { useScanAgain, useScanTarget } from "./ScanProvider.tsx";
import type { Scan } from "./scan.ts";

/** While a page is fetched: keeps what is scanned, and hands it to the page once that is there. */
export function KeepScans(): ReactNode {
  const t = useTexts();
  const again = useScanAgain();
  const kept = useRef<Scan[]>([]);
  useScanTarget((scan) => kept.current.push(scan), t.common.loading);
  useEffect(() => {
    const scans = kept.current;
    return () => {
      // After the page has said that it takes scans.
      window.setTimeout(() => scans.splice(0).forEach(again));
    };
  }, [again]);
  return <Loading />;
}
