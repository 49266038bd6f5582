import { useCallback, useEffect, useRef, type ReactNode } from "react";
import { createPortal } from "react-dom";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { LiveCamera } from "./LiveCamera.tsx";
import { WhyNoCamera } from "./WhyNoCamera.tsx";
import { useTopPlace } from "./useTopPlace.ts";
import "./camera.css";

// Older browsers and plain addresses lack it, whatever the types say.
const mayHaveCamera = (): boolean =>
  window.isSecureContext && (navigator.mediaDevices as MediaDevices | undefined) !== undefined;

/** The camera beside the page, or why there is none. */
export function CameraPanel({ onClose }: { onClose: () => void }): ReactNode {
  return mayHaveCamera() ? <Beside onClose={onClose} /> : <WhyNoCamera onClose={onClose} />;
}

function Beside({ onClose }: { onClose: () => void }): ReactNode {
  const t = useTexts();
  const panel = useRef<HTMLElement>(null);
  // A video that is put elsewhere stops.
  const playOn = useCallback(() => {
    panel.current
      ?.querySelector("video")
      ?.play()
      .catch(() => undefined);
  }, []);
  const host = useTopPlace("camera-host", playOn);
  useMakeRoom();
  useEscape(panel, onClose);
  return createPortal(
    <section ref={panel} className="camera" aria-labelledby="camera-title">
      <header className="camera-head">
        <h2 id="camera-title" tabIndex={-1}>
          {t.camera.button}
        </h2>
        <Button
          className="small"
          aria-label={`${t.camera.button}: ${t.common.close}`}
          onClick={onClose}
        >
          ✕
        </Button>
      </header>
      <LiveCamera />
    </section>,
    host,
  );
}

/** The page leaves room for the camera as long as it is open. */
function useMakeRoom(): void {
  useEffect(() => {
    const { dataset } = document.documentElement;
    dataset["camera"] = "open";
    return () => {
      delete dataset["camera"];
    };
  }, []);
}

/** Escape closes it, unless a dialog stands before it; the focus goes back to where it was. */
function useEscape(panel: { current: HTMLElement | null }, onClose: () => void): void {
  useEffect(() => {
    const before = document.activeElement;
    panel.current?.querySelector("h2")?.focus();
    return () => {
      const { activeElement } = document;
      const isLost = activeElement === null || activeElement === document.body;
      if (isLost && before instanceof HTMLElement) before.focus();
    };
  }, [panel]);
  useEffect(() => {
    const close = (event: KeyboardEvent) => {
      if (event.key !== "Escape" || event.defaultPrevented) return;
      const isInside = panel.current?.contains(document.activeElement) ?? false;
      if (!isInside && document.querySelector("dialog:modal") !== null) return;
      event.preventDefault();
      onClose();
    };
    window.addEventListener("keydown", close);
    return () => window.removeEventListener("keydown", close);
  }, [panel, onClose]);
}
