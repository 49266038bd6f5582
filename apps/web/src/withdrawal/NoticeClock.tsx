import { useEffect, useState, type ReactNode } from "react";
import { serverNowMs } from "../api/server-clock.ts";
import { useTexts } from "../texts/Texts.tsx";

const two = (count: number): string => String(count).padStart(2, "0");

/** The time since the notice, or, of a closed case, the time that it took. */
export function NoticeClock({ from, to }: { from: string; to: string | null }): ReactNode {
  const { clock, case: texts } = useTexts().withdrawal;
  const [nowMs, setNowMs] = useState(serverNowMs);
  useEffect(() => {
    if (to !== null) return undefined;
    const timer = window.setInterval(() => setNowMs(serverNowMs()), 1000);
    return () => window.clearInterval(timer);
  }, [to]);
  const endMs = to === null ? nowMs : Date.parse(to);
  const seconds = Math.max(0, Math.floor((endMs - Date.parse(from)) / 1000));
  const days = Math.floor(seconds / 86_400);
  const time = clock.parts(
    two(Math.floor(seconds / 3600) % 24),
    two(Math.floor(seconds / 60) % 60),
    two(seconds % 60),
  );
  return (
    <p className="notice-clock" role="timer">
      <strong>{days === 0 ? time : `${clock.days(days)} ${time}`}</strong>{" "}
      {to === null ? texts.since : texts.took}
    </p>
  );
}
