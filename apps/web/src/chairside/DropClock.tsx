import { useEffect, useState, type ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import { serverNowMs } from "../api/server-clock.ts";
import type { RecordStep } from "./timer.ts";

interface DropClockProps {
  step: RecordStep;
  onDrop: () => void;
}

/** How long ago the drop was dispensed, against what the instructions allow. */
export function DropClock({ step, onDrop }: DropClockProps): ReactNode {
  const t = useTexts();
  const { dispensedAt, dropLifeSeconds } = step;
  const seconds = useSecondsSince(dispensedAt);
  if (dropLifeSeconds === null || step.containers.length === 0) return null;
  const isOld = seconds !== null && seconds > dropLifeSeconds;
  return (
    <div className={isOld ? "drop-clock old" : "drop-clock"}>
      {seconds === null ? null : (
        <p role="status">
          {isOld ? <VerdictShape verdict="caution" /> : null}
          <strong>{isOld ? t.chairside.dropOld : t.chairside.drop}</strong>{" "}
          {t.chairside.dropAge(seconds, dropLifeSeconds)}
        </p>
      )}
      <Button className="big" onClick={onDrop}>
        {seconds === null ? t.chairside.dispensed : t.chairside.dispensedAgain}
      </Button>
    </div>
  );
}

function useSecondsSince(instant: string | null): number | null {
  const [now, setNow] = useState(serverNowMs);
  useEffect(() => {
    if (instant === null) return undefined;
    setNow(serverNowMs());
    const timer = window.setInterval(() => setNow(serverNowMs()), 500);
    return () => window.clearInterval(timer);
  }, [instant]);
  return instant === null ? null : Math.max(0, Math.floor((now - Date.parse(instant)) / 1000));
}
