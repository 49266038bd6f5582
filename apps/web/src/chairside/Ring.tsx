import { useEffect, useRef, useState, type ReactNode } from "react";
import { serverNowMs } from "../api/server-clock.ts";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { readRun, type Part, type Run } from "./timer.ts";

const radius = 88;
const length = 2 * Math.PI * radius;

interface RingProps {
  part: Part;
  /** `null` before it is begun: the ring is full and still. */
  run: Run | null;
}

/** A ring that runs down with the seconds left in its middle; past the end it counts on. */
export function Ring({ part, run }: RingProps): ReactNode {
  const t = useTexts();
  const nowMs = useTick(run !== null && run.endedMs === null);
  const still = { left: part.seconds, over: 0, fraction: 1 };
  const { left, over, fraction } = run === null ? still : readRun(run, nowMs);
  const isUp = run !== null && left === 0;
  const wasUp = useRef(isUp);
  useEffect(() => {
    if (isUp && !wasUp.current) playSound("time-up");
    wasUp.current = isUp;
  }, [isUp]);
  return (
    <div className={isUp ? "ring up" : "ring"}>
      <svg viewBox="0 0 200 200" aria-hidden="true">
        <circle className="ring-track" cx="100" cy="100" r={radius} />
        <circle
          className="ring-left"
          cx="100"
          cy="100"
          r={radius}
          strokeDasharray={`${length * fraction} ${length}`}
          transform="rotate(-90 100 100)"
        />
      </svg>
      <div className="ring-words" role="timer">
        <span className="ring-part">{t.chairside.parts[part.kind]}</span>
        <span className="ring-seconds">{left > 0 ? left : t.chairside.over(over)}</span>
        <span className="ring-from">
          {t.common.seconds(part.seconds)}, {t.chairside.partFrom[part.from]}
        </span>
      </div>
      <p className="unseen" role="status">
        {isUp ? t.chairside.timeUp(t.chairside.parts[part.kind]) : ""}
      </p>
    </div>
  );
}

function useTick(isRunning: boolean): number {
  const [nowMs, setNowMs] = useState(serverNowMs);
  useEffect(() => {
    if (!isRunning) return undefined;
    setNowMs(serverNowMs());
    const timer = window.setInterval(() => setNowMs(serverNowMs()), 100);
    return () => window.clearInterval(timer);
  }, [isRunning]);
  return nowMs;
}
