import { useCallback, useEffect, useRef, useState, type ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { CameraTools } from "./CameraTools.tsx";
import { PhotoButton } from "./PhotoButton.tsx";
import { aboutCamera } from "./track.ts";
import { useLooks } from "./useLooks.ts";
import { useReading, type Seen } from "./useReading.ts";
import { useStream, type StreamState } from "./useStream.ts";

/** What the camera shows, what was read, and what can be set. */
export function LiveCamera(): ReactNode {
  const t = useTexts();
  const { isWanted, isResting, goOn, stayAwake } = useWanted();
  const { state, choose, tryAgain } = useStream(isWanted);
  const video = useRef<HTMLVideoElement>(null);
  const stream = state.kind === "live" && isWanted ? state.stream : null;
  useEffect(() => {
    const { current } = video;
    if (current === null) return;
    current.srcObject = stream;
    if (stream !== null) current.play().catch(() => undefined);
  }, [stream]);
  const { seen, said, onLook } = useReading(stayAwake);
  const { reader, hasFailed } = useLooks(video, stream !== null, onLook);
  const isFront = stream !== null && aboutCamera(stream).isFront;
  return (
    <>
      <div className={isFront ? "camera-stage mirrored" : "camera-stage"}>
        <video ref={video} muted playsInline aria-hidden="true" />
        {stream === null ? null : <Outlines seen={seen} />}
        <Instead {...{ state, isResting }} onGoOn={goOn} onTryAgain={tryAgain} />
      </div>
      <div className="camera-said" role="status">
        {hasFailed ? <p>{t.camera.readerFailed}</p> : null}
        {stream === null || hasFailed ? null : <Said {...{ seen, said }} />}
      </div>
      {stream === null ? null : <CameraTools key={stream.id} stream={stream} onChoose={choose} />}
      <PhotoButton />
      {state.kind === "live" && state.isOther ? (
        <p className="hint">{t.camera.said.other}</p>
      ) : null}
      {reader === "script" ? <p className="hint">{t.camera.said.slow}</p> : null}
    </>
  );
}

const restsAfterMs = 180_000;

interface Wanted {
  isWanted: boolean;
  isResting: boolean;
  goOn: () => void;
  /** Something was read: it is still in use. */
  stayAwake: () => void;
}

/** The camera is wanted while its page is in view and something is read now and then. */
function useWanted(): Wanted {
  const [isVisible, setIsVisible] = useState(() => !document.hidden);
  const [isResting, setIsResting] = useState(false);
  const timer = useRef(0);
  const stayAwake = useCallback(() => {
    window.clearTimeout(timer.current);
    timer.current = window.setTimeout(() => setIsResting(true), restsAfterMs);
  }, []);
  const goOn = useCallback(() => {
    setIsResting(false);
    stayAwake();
  }, [stayAwake]);
  useEffect(() => {
    const look = () => setIsVisible(!document.hidden);
    const leave = () => setIsVisible(false);
    document.addEventListener("visibilitychange", look);
    window.addEventListener("pagehide", leave);
    window.addEventListener("pageshow", look);
    stayAwake();
    return () => {
      document.removeEventListener("visibilitychange", look);
      window.removeEventListener("pagehide", leave);
      window.removeEventListener("pageshow", look);
      window.clearTimeout(timer.current);
    };
  }, [stayAwake]);
  return { isWanted: isVisible && !isResting, isResting, goOn, stayAwake };
}

function Outlines({ seen: { outlines, size } }: { seen: Seen }): ReactNode {
  return (
    <svg viewBox={`0 0 ${size.width} ${size.height}`} aria-hidden="true">
      {outlines.map(({ key, points, isSure }) => (
        <polygon key={key} points={points} className={isSure ? "sure" : ""} />
      ))}
    </svg>
  );
}

function Said({ seen, said }: { seen: Seen; said: string | null }): ReactNode {
  const { camera } = useTexts();
  if (seen.isCrowded) return <p>{camera.crowded}</p>;
  if (said === null) {
    return <p>{seen.outlines.length > 0 ? camera.said.wait : camera.said.ready}</p>;
  }
  return (
    <>
      <p className="camera-read">{camera.said.read(said)}</p>
      <p className="hint">{camera.said.once}</p>
    </>
  );
}

interface InsteadProps {
  state: StreamState;
  isResting: boolean;
  onGoOn: () => void;
  onTryAgain: () => void;
}

/** What stands in place of the picture while there is none. */
function Instead({ state, isResting, onGoOn, onTryAgain }: InsteadProps): ReactNode {
  const { camera } = useTexts();
  if (isResting) {
    return (
      <div className="camera-instead" role="status">
        <p>{camera.said.resting}</p>
        <Button onClick={onGoOn}>{camera.goOn}</Button>
      </div>
    );
  }
  if (state.kind === "live") return null;
  if (state.kind === "asking") {
    return (
      <div className="camera-instead asking" role="status">
        <p>{camera.said.asking}</p>
      </div>
    );
  }
  const { title, mend } = camera.faults[state.fault];
  return (
    <div className="camera-instead" role="alert">
      <p className="problem-title">{title}</p>
      <p>{mend}</p>
      <Button onClick={onTryAgain}>{camera.tryAgain}</Button>
    </div>
  );
}
