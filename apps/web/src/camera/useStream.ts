import { useCallback, useEffect, useState } from "react";
import { readRemembered, remember } from "../ui/remembered.ts";
import { listWishes, mayTryNext, readFault, type CameraFault } from "./camera-choice.ts";
import { keepFocusing, stopStream } from "./track.ts";

export type StreamState =
  | { kind: "asking" }
  /** `isOther`: the camera that was chosen is not to be had. */
  | { kind: "live"; stream: MediaStream; isOther: boolean }
  | { kind: "fault"; fault: CameraFault };

const rememberedAs = "camera";

async function openCamera(chosenId: string | null): Promise<[MediaStream, number]> {
  let refusal: unknown;
  for (const [index, wish] of listWishes(chosenId).entries()) {
    try {
      const stream = await navigator.mediaDevices.getUserMedia(wish);
      await keepFocusing(stream);
      return [stream, index];
    } catch (error) {
      refusal = error;
      if (!mayTryNext(error)) break;
    }
  }
  throw refusal;
}

interface StreamUse {
  state: StreamState;
  /** Takes another camera and keeps the choice on this device. */
  choose: (cameraId: string) => void;
  tryAgain: () => void;
}

/** The picture of the camera chosen on this device, while it is wanted. */
export function useStream(isWanted: boolean): StreamUse {
  const [state, setState] = useState<StreamState>({ kind: "asking" });
  const [chosenId, setChosenId] = useState(() => readRemembered(rememberedAs));
  const [attempt, setAttempt] = useState(0);
  useEffect(() => {
    if (!isWanted) return undefined;
    return follow(chosenId, setState);
  }, [isWanted, chosenId, attempt]);
  const choose = useCallback((cameraId: string) => {
    remember(rememberedAs, cameraId);
    setChosenId(cameraId);
  }, []);
  const tryAgain = useCallback(() => setAttempt((count) => count + 1), []);
  return { state, choose, tryAgain };
}

function follow(chosenId: string | null, tell: (state: StreamState) => void): () => void {
  let isOver = false;
  let open: MediaStream | undefined;
  tell({ kind: "asking" });
  openCamera(chosenId).then(
    ([stream, wish]) => {
      if (isOver) return stopStream(stream);
      open = stream;
      tell({ kind: "live", stream, isOther: wish > 0 });
      // Only what happens to the camera itself, not what is done here, is told so.
      stream.getVideoTracks()[0]?.addEventListener("ended", () => {
        if (!isOver) tell({ kind: "fault", fault: "went-away" });
      });
    },
    (error: unknown) => {
      if (!isOver) tell({ kind: "fault", fault: readFault(error) });
    },
  );
  return () => {
    isOver = true;
    if (open !== undefined) stopStream(open);
  };
}
