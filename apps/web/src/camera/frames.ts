/** Looks at a video again and again: always its newest frame, one at a time, never a queue. */
import type { SymbolRead } from "#decode";
import { visiblePart } from "./camera-choice.ts";
import type { Decoder } from "./decoder.ts";
import { takePixels } from "./pixels.ts";

/** Twelve looks a second are soon enough, and leave a tablet cool. */
const paceMs = 80;

export interface Look {
  reads: readonly SymbolRead[];
  /** The size of what was looked at, in pixels: the corners of the reads are in it. */
  width: number;
  height: number;
  atMs: number;
}

interface Looking {
  video: HTMLVideoElement;
  decoder: Decoder;
  onLook: (look: Look) => void;
  /** The pictures can no longer be looked at. */
  onFail: () => void;
}

/** Goes on until the function that it gives is called. What the person sees is what is read. */
export function keepLooking({ video, decoder, onLook, onFail }: Looking): () => void {
  let isOn = true;
  let timer = 0;

  async function lookOnce(): Promise<void> {
    const picture = { width: video.videoWidth, height: video.videoHeight };
    const part = visiblePart(picture, { width: video.clientWidth, height: video.clientHeight });
    if (part === null || video.readyState < HTMLMediaElement.HAVE_CURRENT_DATA) return;
    const atMs = performance.now();
    const reads = await decoder.look("frame", await takePixels(video, part), atMs);
    if (!isOn) return;
    if (reads === null) return onFail();
    onLook({ reads, width: part.width, height: part.height, atMs });
  }

  function goOn(): void {
    if (!isOn) return;
    const beganMs = performance.now();
    const rest = () => {
      if (!isOn) return;
      const restMs = Math.max(0, beganMs + paceMs - performance.now());
      timer = window.setTimeout(() => whenNextFrame(video, goOn), restMs);
    };
    // A frame that goes while it is taken, as when the camera is changed, is nothing lost.
    lookOnce().then(rest, rest);
  }

  goOn();
  return () => {
    isOn = false;
    window.clearTimeout(timer);
  };
}

function whenNextFrame(video: HTMLVideoElement, act: () => void): void {
  if ("requestVideoFrameCallback" in video) video.requestVideoFrameCallback(act);
  else requestAnimationFrame(act);
}
