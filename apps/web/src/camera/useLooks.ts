import { useEffect, useState, type RefObject } from "react";
import { sharedDecoder, type ReaderKind } from "./decoder.ts";
import { keepLooking, type Look } from "./frames.ts";

interface LooksUse {
  reader: ReaderKind | null;
  hasFailed: boolean;
}

/** Reads what a video shows as long as it shows something. */
export function useLooks(
  video: RefObject<HTMLVideoElement | null>,
  isOn: boolean,
  onLook: (look: Look) => void,
): LooksUse {
  const [reader, setReader] = useState<ReaderKind | null>(null);
  const [hasFailed, setHasFailed] = useState(false);
  useEffect(() => {
    if (video.current === null || !isOn) return undefined;
    const decoder = sharedDecoder();
    const onFail = () => setHasFailed(true);
    decoder.ready.then(setReader, onFail);
    const onGood = (look: Look) => {
      setHasFailed(false);
      onLook(look);
    };
    return keepLooking({ video: video.current, decoder, onLook: onGood, onFail });
  }, [video, isOn, onLook]);
  return { reader, hasFailed };
}
