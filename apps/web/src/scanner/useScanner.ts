import { useEffect, useRef } from "react";
import { takesText, takeSnapshot, typeText, type TextSnapshot } from "./focused-text.ts";
import type { WedgeKey } from "./wedge-keys.ts";
import { Wedge, type Burst, type WedgeAnswer, type WedgeSettings } from "./wedge.ts";

export interface ScannerListener {
  onScan: (burst: Burst) => void;
  /** A burst came without its end key: the scanner's set-up lacks it. */
  onEndless: () => void;
}

/** Listens for scans wherever the focus is, before any field or button gets the keys. */
export function useScanner(listener: ScannerListener, settings: WedgeSettings): void {
  const latest = useRef(listener);
  useEffect(() => {
    latest.current = listener;
  });
  useEffect(() => {
    const listening = new Listening(latest, settings);
    return () => listening.stop();
  }, [settings]);
}

// Windows delivers the character of an Alt code a moment after Alt is let go.
const altCodeWaitsMs = 40;

class Listening {
  private readonly wedge: Wedge;
  private readonly stopping = new AbortController();
  private snapshot: TextSnapshot | null = null;
  private timer = 0;
  private isTyping = false;

  constructor(
    private readonly listener: { current: ScannerListener },
    private readonly settings: WedgeSettings,
  ) {
    this.wedge = new Wedge(settings);
    const { signal } = this.stopping;
    const options = { capture: true, signal };
    window.addEventListener("keydown", (event) => this.onKey(event), options);
    window.addEventListener("keyup", (event) => this.onKey(event), options);
    window.addEventListener("beforeinput", (event) => this.onInput(event), options);
  }

  stop(): void {
    window.clearTimeout(this.timer);
    this.stopping.abort();
  }

  private onKey(event: KeyboardEvent): void {
    if (event.isComposing) return;
    window.clearTimeout(this.timer);
    const answer = this.wedge.press(readKey(event));
    if (answer.hold) {
      event.preventDefault();
      event.stopImmediatePropagation();
    }
    this.follow(answer);
    this.restAfter(this.settings.maxGapMs + 5);
  }

  /** The browser's own characters in the midst of a burst: an Alt code's, or a dead key's. */
  private onInput(event: InputEvent): void {
    if (this.isTyping || event.inputType !== "insertText") return;
    if (!this.wedge.isHolding(event.timeStamp - altCodeWaitsMs)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
  }

  private restAfter(waitMs: number): void {
    this.timer = window.setTimeout(() => {
      const answer = this.wedge.rest(performance.now());
      this.follow(answer);
      if (answer.waits) this.restAfter(waitMs);
    }, waitMs);
  }

  private follow(answer: WedgeAnswer): void {
    if (answer.release !== "") this.type(answer.release);
    if (answer.begins) this.snapshot = takeSnapshot(document.activeElement);
    if (answer.endless) this.listener.current.onEndless();
    if (answer.scan === null) return;
    if (this.snapshot !== null) this.undo(this.snapshot);
    this.snapshot = null;
    this.listener.current.onScan(answer.scan);
  }

  private type(text: string): void {
    this.isTyping = true;
    typeText(document.activeElement, text);
    this.isTyping = false;
  }

  private undo(snapshot: TextSnapshot): void {
    this.isTyping = true;
    snapshot.restore();
    this.isTyping = false;
  }
}

function readKey(event: KeyboardEvent): WedgeKey {
  return {
    atMs: event.timeStamp,
    down: event.type === "keydown",
    key: event.key,
    code: event.code,
    shift: event.shiftKey,
    ctrl: event.ctrlKey,
    alt: event.altKey,
    meta: event.metaKey,
    repeat: event.repeat,
    inText: takesText(document.activeElement),
  };
}
