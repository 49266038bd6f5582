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
import { createPortal } from "react-dom";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "./Button.tsx";

export type Tone = "good" | "look" | "bad";

export interface Announcement {
  text: string;
  tone?: Tone;
  action?: { label: string; act: () => void };
}
type Announce = (announcement: Announcement) => void;

const AnnounceContext = createContext<Announce | null>(null);

// Long enough to be read twice; what is wrong stays until it is put away.
const shownMs = 7000;

/** Short messages at the foot of the screen, read aloud by screen readers as they come. */
export function AnnouncerProvider({ children }: { children: ReactNode }): ReactNode {
  const t = useTexts();
  const [shown, setShown] = useState<(Announcement & { id: number }) | null>(null);
  const count = useRef(0);
  const announce = useCallback((announcement: Announcement) => {
    count.current += 1;
    setShown({ ...announcement, id: count.current });
  }, []);
  useEffect(() => {
    if (shown === null || shown.tone === "bad") return undefined;
    const timer = window.setTimeout(() => setShown(null), shownMs);
    return () => window.clearTimeout(timer);
  }, [shown]);
  const value = useMemo(() => announce, [announce]);
  return (
    <AnnounceContext value={value}>
      {children}
      <div className="announcer" role="status" aria-live="polite">
        {shown === null ? null : (
          <AboveAll key={shown.id}>
            <Toast shown={shown} close={t.common.close} onClose={() => setShown(null)} />
          </AboveAll>
        )}
      </div>
    </AnnounceContext>
  );
}

/**
 * Inside the dialog that is open, if one is: what stands outside of it can neither be tapped nor is
 * it read aloud. It moves back out when the dialog closes.
 */
function AboveAll({ children }: { children: ReactNode }): ReactNode {
  const [dialog, setDialog] = useState(findDialog);
  useEffect(() => {
    const look = () => setDialog(findDialog());
    look();
    const observer = new MutationObserver(look);
    observer.observe(document.body, { childList: true, subtree: true, attributeFilter: ["open"] });
    return () => observer.disconnect();
  }, []);
  if (dialog === null) return children;
  return createPortal(<div role="status">{children}</div>, dialog);
}

const findDialog = (): Element | null =>
  [...document.querySelectorAll("dialog:modal")].at(-1) ?? null;

interface ToastProps {
  shown: Announcement;
  close: string;
  onClose: () => void;
}

/** A popover, so that it stands above an open dialog as well. */
function Toast({ shown, close, onClose }: ToastProps): ReactNode {
  const element = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // The dialog it was drawn in may be gone by now: it is drawn again outside then.
    if (element.current?.isConnected === true) element.current.showPopover?.();
  }, []);
  return (
    <div ref={element} popover="manual" className={`toast ${shown.tone ?? "good"}`}>
      <p>{shown.text}</p>
      {shown.action ? (
        <Button
          kind="quiet"
          onClick={() => {
            shown.action?.act();
            onClose();
          }}
        >
          {shown.action.label}
        </Button>
      ) : null}
      <Button kind="quiet" className="small" onClick={onClose} aria-label={close}>
        ✕
      </Button>
    </div>
  );
}

/** Says something to the person, whatever page comes next. */
export function useAnnounce(): Announce {
  const announce = useContext(AnnounceContext);
  if (announce === null) throw new Error("useAnnounce outside of AnnouncerProvider");
  return announce;
}
