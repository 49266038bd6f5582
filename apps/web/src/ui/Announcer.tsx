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
      {/* A popover, so that it stands above an open dialog as well. */}
      <div className="announcer" role="status" aria-live="polite">
        {shown === null ? null : (
          <Toast
            key={shown.id}
            shown={shown}
            close={t.common.close}
            onClose={() => setShown(null)}
          />
        )}
      </div>
    </AnnounceContext>
  );
}

interface ToastProps {
  shown: Announcement;
  close: string;
  onClose: () => void;
}

function Toast({ shown, close, onClose }: ToastProps): ReactNode {
  const element = useRef<HTMLDivElement>(null);
  useEffect(() => {
    element.current?.showPopover?.();
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
