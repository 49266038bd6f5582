import {
  createContext,
  useCallback,
  useContext,
  useMemo,
  useRef,
  useState,
  type ReactNode,
} from "react";
import { useLocation } from "wouter";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { leadsSomewhere, useFollowOwnCode } from "./OwnCodes.tsx";
import { observingSettings, settingsOf, useDeviceProfile } from "./device-profile.ts";
import {
  isInverted,
  joinTexts,
  mayHaveRunTogether,
  readBurst,
  readScanned,
  wantsOtherSymbol,
  type Scan,
  type ScanSource,
} from "./scan.ts";
import { playSound } from "./sounds.ts";
import { useScanner } from "./useScanner.ts";
import { useScannerOfTablet } from "./useScannerOfTablet.ts";
import type { Burst } from "./wedge.ts";
import { useWhileShown } from "./useWhileShown.ts";

interface ScanTarget {
  label: string;
  /** Wants a lone half of a label as well: it has the other half already. */
  takesHalves: boolean;
  take: (scan: Scan) => void;
}

interface Scanning {
  /** What a scan is about now, or `null` where nothing on the page takes one. */
  targetLabel: string | null;
  /** A code that came otherwise than by the scanner, read as a scan would be. */
  enter: (raw: string, source?: ScanSource) => void;
  addTarget: (target: ScanTarget) => () => void;
  /** Brings a scan that was kept to what the page is about now. */
  again: (scan: Scan) => void;
  /** Takes every burst as it comes, unread, until the answer is called. */
  observe: (take: (burst: Burst) => void) => () => void;
  /** A scan in which two fields may have run into one, until a person has compared it. */
  doubted: Scan | null;
  settleDoubt: (isRight: boolean) => void;
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
  const followOwnCode = useFollowOwnCode();
  useScannerOfTablet();
  const deliver = useCallback(
    (scan: Scan) => {
      if (leadsSomewhere(scan)) {
        return void followOwnCode(scan).then((led) => {
          if (!led) playSound("look");
          setUntaken(led ? null : scan);
        });
      }
      const target = targets.current.at(-1);
      const readable = scan.reading.kind !== "unreadable";
      setUntaken(target !== undefined && readable ? null : scan);
      if (!readable) playSound("look");
      else if (target === undefined) playSound("taken");
      else target.take(scan);
    },
    [followOwnCode],
  );
  const { take: takeScan, doubted, settleDoubt } = useDoubt(deliver);
  const takesHalves = useCallback(() => targets.current.at(-1)?.takesHalves ?? false, []);
  const takePart = useJoining(takeScan, takesHalves);
  const observe = useListening(takePart);
  const addTarget = useCallback((target: ScanTarget) => {
    targets.current.push(target);
    setTargetLabel(target.label);
    return () => {
      targets.current = targets.current.filter((one) => one !== target);
      setTargetLabel(targets.current.at(-1)?.label ?? null);
    };
  }, []);
  const enter = useEntering(takePart);
  const putAway = useCallback(() => setUntaken(null), []);
  const value = useMemo(
    () => ({
      targetLabel,
      enter,
      addTarget,
      again: deliver,
      observe,
      doubted,
      settleDoubt,
      untaken,
      putAway,
    }),
    [targetLabel, enter, addTarget, deliver, observe, doubted, settleDoubt, untaken, putAway],
  );
  return <ScanContext value={value}>{children}</ScanContext>;
}

/** Keeps a scan back in which two fields may have run into one; a person says if it is right. */
function useDoubt(
  deliver: (scan: Scan) => void,
): Pick<Scanning, "doubted" | "settleDoubt"> & { take: (scan: Scan) => void } {
  const [doubted, setDoubted] = useState<Scan | null>(null);
  const take = useCallback(
    (scan: Scan) => {
      const isDoubted = mayHaveRunTogether(scan);
      setDoubted(isDoubted ? scan : null);
      if (isDoubted) playSound("look");
      else deliver(scan);
    },
    [deliver],
  );
  const settleDoubt = useCallback(
    (isRight: boolean) => {
      setDoubted(null);
      if (isRight && doubted !== null) deliver(doubted);
    },
    [deliver, doubted],
  );
  return { doubted, settleDoubt, take };
}

function useListening(take: (scan: Scan) => void): Scanning["observe"] {
  const t = useTexts();
  const { today } = useFormats();
  const announce = useAnnounce();
  const [, navigate] = useLocation();
  const { profile } = useDeviceProfile();
  const [observer, setObserver] = useState<{ take: (burst: Burst) => void } | null>(null);
  const isObserving = observer !== null;
  const settings = useMemo(
    () => (isObserving ? observingSettings : settingsOf(profile)),
    [isObserving, profile],
  );
  const listener = {
    onScan: (burst: Burst) => {
      if (observer === null) take(readBurst(burst, profile, today()));
      else observer.take(burst);
    },
    onEndless: () => {
      playSound("look");
      const act = () => navigate(paths.scanner());
      announce({ text: t.scan.endless, tone: "bad", action: { label: t.scan.scannerPage, act } });
    },
  };
  useScanner(listener, settings);
  return useCallback((takeBurst) => {
    const next = { take: takeBurst };
    setObserver(next);
    return () => setObserver((now) => (now === next ? null : now));
  }, []);
}

/** Reads what came otherwise than by the scanner. */
function useEntering(take: (scan: Scan) => void): Scanning["enter"] {
  const { today } = useFormats();
  return useCallback(
    (raw, source = "hand") => {
      const barcodes = [raw];
      take({ barcodes, reading: readScanned({ barcodes }, today()), source });
    },
    [take, today],
  );
}

/** Joins the two symbols of one label where a label has two. */
function useJoining(take: (scan: Scan) => void, takesHalves: () => boolean): (scan: Scan) => void {
  const t = useTexts();
  const { today } = useFormats();
  const announce = useAnnounce();
  const half = useRef<{ scan: Scan; atMs: number } | null>(null);
  return useCallback(
    (scan) => {
      const first = half.current;
      half.current = null;
      const isLate = first === null || Date.now() - first.atMs >= halfWaitsMs;
      if (!isLate && !isInverted(scan)) {
        const texts = joinTexts(first.scan, scan);
        const reading = readScanned(texts, today());
        if (reading.kind === "label") return take({ ...scan, ...texts, reading });
      }
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
  const add = useCallback(
    (taking: (scan: Scan) => void) => addTarget({ label, takesHalves, take: taking }),
    [addTarget, label, takesHalves],
  );
  useWhileShown(add, take);
}

/** Brings a scan that was kept to what the page is about now. */
export function useScanAgain(): (scan: Scan) => void {
  return useScanning().again;
}

/** What a scan goes to now, and a way to enter a code by hand. */
export function useScanEntry(): Pick<Scanning, "targetLabel" | "enter"> {
  return useScanning();
}

/** Gets every burst as it comes, unread, as long as `take` is given: to set a scanner up. */
export function useBursts(take: ((burst: Burst) => void) | null): void {
  useWhileShown(useScanning().observe, take);
}

/** The scan that nothing took, or that a person has yet to compare, if any. */
export function useUntakenScan(): Pick<
  Scanning,
  "untaken" | "putAway" | "doubted" | "settleDoubt"
> {
  return useScanning();
}
