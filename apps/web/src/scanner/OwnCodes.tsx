import { createContext, useCallback, useContext, useMemo, useRef, type ReactNode } from "react";
import { useLocation } from "wouter";
import type { AnswerOf } from "#contracts/operations";
import { call } from "../api/client.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { textsOf, type Scan } from "./scan.ts";
import { playSound } from "./sounds.ts";
import { useWhileShown } from "./useWhileShown.ts";
import { showTooth } from "../texts/tooth-notation.ts";

type Answer = AnswerOf<"readScan">;
export type ScannedPlace = NonNullable<Answer["place"]>;
type ScannedTray = NonNullable<Answer["tray"]>;

interface OwnCodes {
  /** Follows the code of a place or a tray; false where it means nothing here. */
  follow: (scan: Scan) => Promise<boolean>;
  addPlaceTarget: (take: (place: ScannedPlace) => void) => () => void;
}

const OwnCodesContext = createContext<OwnCodes | null>(null);

/** Whether a scan is the code of a place or a tray, which lead somewhere by themselves. */
export const leadsSomewhere = ({ reading }: Scan): boolean =>
  reading.kind === "location" || reading.kind === "tray";

/** What the codes of places and trays do: they open what they name, unless a page uses them. */
export function OwnCodesProvider({ children }: { children: ReactNode }): ReactNode {
  const targets = useRef<((place: ScannedPlace) => void)[]>([]);
  const openPlace = useOpenPlace();
  const openTray = useOpenTray();
  const follow = useCallback(
    async (scan: Scan) => {
      const { place, tray } = await call("readScan", { body: textsOf(scan) }).catch(() => ({
        place: null,
        tray: null,
      }));
      if (place !== null) (targets.current.at(-1) ?? openPlace)(place);
      else if (tray !== null) openTray(tray);
      return place !== null || tray !== null;
    },
    [openPlace, openTray],
  );
  const addPlaceTarget = useCallback((take: (place: ScannedPlace) => void) => {
    targets.current.push(take);
    return () => {
      targets.current = targets.current.filter((one) => one !== take);
    };
  }, []);
  const value = useMemo(() => ({ follow, addPlaceTarget }), [follow, addPlaceTarget]);
  return <OwnCodesContext value={value}>{children}</OwnCodesContext>;
}

// What is half done there would be lost, or a clock left alone.
const staysOpen = /\/(chairside|plan|new)$/;
const mustStay = (path: string): boolean =>
  staysOpen.test(path) || document.querySelector("dialog[open]") !== null;

function useOpenPlace(): (place: ScannedPlace) => void {
  const { own: t } = useTexts().labels;
  const announce = useAnnounce();
  const [path, navigate] = useLocation();
  return useCallback(
    ({ id, name }) => {
      const open = () => navigate(paths.shelf({ location: id }));
      if (mustStay(path)) {
        playSound("look");
        const action = { label: t.showPlace, act: open };
        return announce({ text: t.placeHere(name), tone: "look", action });
      }
      playSound("taken");
      open();
      announce({ text: t.placeOpened(name) });
    },
    [t, announce, path, navigate],
  );
}

function useOpenTray(): (tray: ScannedTray) => void {
  const { own: t } = useTexts().labels;
  const announce = useAnnounce();
  const [path, navigate] = useLocation();
  return useCallback(
    ({ id, tooth, chartNumber }) => {
      const open = () => navigate(paths.tray(id));
      if (path === paths.tray(id) || path === paths.chairside(id)) {
        playSound("taken");
        return announce({ text: t.thisTray });
      }
      if (mustStay(path)) {
        playSound("look");
        const action = { label: t.openTray, act: open };
        return announce({ text: t.trayHere(showTooth(tooth), chartNumber), tone: "look", action });
      }
      playSound("taken");
      open();
      announce({ text: t.trayOpened(showTooth(tooth), chartNumber) });
    },
    [t, announce, path, navigate],
  );
}

function useOwnCodes(): OwnCodes {
  const codes = useContext(OwnCodesContext);
  if (codes === null) throw new Error("own codes are read outside of OwnCodesProvider");
  return codes;
}

/** Follows the code of a place or a tray. */
export function useFollowOwnCode(): OwnCodes["follow"] {
  return useOwnCodes().follow;
}

/**
 * Takes the place whose code is scanned, as long as the component is shown; the last one wins.
 * `null` takes none.
 */
export function usePlaceTarget(take: ((place: ScannedPlace) => void) | null): void {
  useWhileShown(useOwnCodes().addPlaceTarget, take);
}
