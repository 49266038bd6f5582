import {
  createContext,
  useCallback,
  useContext,
  useEffect,
  useMemo,
  useRef,
  useState,
  type ReactNode,
} from "react";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { readScanned, wantsOtherSymbol, type Scan } from "./scan.ts";
import { playSound } from "./sounds.ts";
import { useScanner } from "./useScanner.ts";

interface ScanTarget {
  label: string;
  /** Wants a lone half of a label as well: it has the other half already. */
  takesHalves: boolean;
  take: (scan: Scan) => void;
}

interface Scanning {
  /** What a scan is about now, or `null` where nothing on the page takes one. */
  targetLabel: string | null;
  /** A code typed or pasted, read as a scan would be. */
  enter: (raw: string) => void;
  addTarget: (target: ScanTarget) => () => void;
  /** A scan that nothing took, to be shown to the person. */
  untaken: Scan | null;
  putAway: () => void;
}

const ScanContext = createContext<Scanning | null>(null);
const halfWaitsMs = 20_000;

/** Hears every scan, wherever the focus is, and brings it to what the page is about. */
export function ScanProvider({ children }: { children: ReactNode }): ReactNode {
  const targets = useRef<ScanTarget[]>([]);
  const [targetLabel, setTargetLabel] = useState<string | null>(null);
  const [untaken, setUntaken] = useState<Scan | null>(null);
  const readRaw = useReadRaw(
    useCallback((scan) => {
      const target = targets.current.at(-1);
      const readable = scan.reading.kind !== "unreadable";
      setUntaken(target !== undefined && readable ? null : scan);
      if (!readable) playSound("look");
      else if (target === undefined) playSound("taken");
      else target.take(scan);
    }, []),
    useCallback(() => targets.current.at(-1)?.takesHalves ?? false, []),
  );
  useListening(readRaw);
  const addTarget = useCallback((target: ScanTarget) => {
    targets.current.push(target);
    setTargetLabel(target.label);
    return () => {
      targets.current = targets.current.filter((one) => one !== target);
      setTargetLabel(targets.current.at(-1)?.label ?? null);
    };
  }, []);
  const enter = useCallback((raw: string) => readRaw(raw, true), [readRaw]);
  const putAway = useCallback(() => setUntaken(null), []);
  const value = useMemo(
    () => ({ targetLabel, enter, addTarget, untaken, putAway }),
    [targetLabel, enter, addTarget, untaken, putAway],
  );
  return <ScanContext value={value}>{children}</ScanContext>;
}

function useListening(readRaw: (raw: string, byHand: boolean) => void): void {
  const t = useTexts();
  const announce = useAnnounce();
  useScanner({
    onScan: (raw) => readRaw(raw, false),
    onEndless: () => {
      playSound("look");
      announce({ text: t.scan.endless, tone: "bad" });
    },
  });
}

/** Reads what came, and joins the two symbols of one label where a label has two. */
function useReadRaw(
  take: (scan: Scan) => void,
  takesHalves: () => boolean,
): (raw: string, byHand: boolean) => void {
  const t = useTexts();
  const { today } = useFormats();
  const announce = useAnnounce();
  const half = useRef<{ scan: Scan; atMs: number } | null>(null);
  return useCallback(
    (raw, byHand) => {
      const first = half.current;
      half.current = null;
      if (first !== null && Date.now() - first.atMs < halfWaitsMs) {
        const barcodes = [...first.scan.barcodes, raw];
        const reading = readScanned(barcodes, today());
        if (reading.kind === "label") return take({ barcodes, reading, byHand });
      }
      const scan: Scan = { barcodes: [raw], reading: readScanned([raw], today()), byHand };
      const isHalf = scan.reading.kind === "label" && wantsOtherSymbol(scan.reading.label);
      if (!isHalf || takesHalves()) return take(scan);
      half.current = { scan, atMs: Date.now() };
      playSound("taken");
      const alone = () => {
        half.current = null;
        take(scan);
      };
      announce({
        text: t.scan.secondSymbol,
        tone: "look",
        action: { label: t.scan.alone, act: alone },
      });
    },
    [take, takesHalves, today, announce, t],
  );
}

function useScanning(): Scanning {
  const scanning = useContext(ScanContext);
  if (scanning === null) throw new Error("scanning is used outside of ScanProvider");
  return scanning;
}

/**
 * Says what a scan is about as long as the component is shown: `take` gets every readable scan.
 * The component shown last wins, so that a dialog takes over from its page. `null` takes none.
 */
export function useScanTarget(
  take: ((scan: Scan) => void) | null,
  label: string,
  takesHalves = false,
): void {
  const { addTarget } = useScanning();
  const latest = useRef(take);
  useEffect(() => {
    latest.current = take;
  });
  const wanted = take !== null;
  useEffect(() => {
    if (!wanted) return undefined;
    return addTarget({ label, takesHalves, take: (scan) => latest.current?.(scan) });
  }, [addTarget, label, takesHalves, wanted]);
}

/** What a scan goes to now, and a way to enter a code by hand. */
export function useScanEntry(): Pick<Scanning, "targetLabel" | "enter"> {
  return useScanning();
}

/** The scan that nothing took, if any. */
export function useUntakenScan(): Pick<Scanning, "untaken" | "putAway"> {
  return useScanning();
}
