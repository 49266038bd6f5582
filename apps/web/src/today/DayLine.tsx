import type { ReactNode } from "react";
import { Link } from "wouter";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { EmptyState } from "../ui/States.tsx";
import { VerdictWord } from "../ui/Verdict.tsx";
import { hourAt, placeHour, spanDay, stackRows } from "./day-line.ts";
import type { TodayTray } from "./urgency.ts";
import { showTooth } from "../texts/tooth-notation.ts";

// How much of the day a tray's mark covers on a tablet.
const markHours = 1.35;

/** The day from left to right, with a mark for each tray at its time. */
export function DayLine({ trays, at }: { trays: readonly TodayTray[]; at: string }): ReactNode {
  const t = useTexts();
  const { timeZone } = useFormats();
  const sorted = [...trays].sort((a, b) => (a.appointmentAt < b.appointmentAt ? -1 : 1));
  const hours = sorted.map((tray) => hourAt(tray.appointmentAt, timeZone));
  const now = hourAt(at, timeZone);
  const span = spanDay([...hours, now]);
  const rows = stackRows(hours, markHours);
  if (trays.length === 0) return <EmptyState text={t.today.noTrays} />;
  const ticks = Array.from(
    { length: span.lastHour - span.firstHour + 1 },
    (_, index) => span.firstHour + index,
  );
  const rowCount = Math.max(...rows) + 1;
  return (
    <section className="day-frame" aria-label={t.today.theDay}>
      <div className="day" style={{ "--rows": rowCount }}>
        <div className="day-hours" aria-hidden="true">
          {ticks.map((hour) => (
            <span key={hour} style={{ left: `${placeHour(span, hour)}%` }}>
              {hour}
            </span>
          ))}
        </div>
        <div className="day-now" style={{ left: `${placeHour(span, now)}%` }} aria-hidden="true">
          <span>{t.today.nowMark}</span>
        </div>
        <ol>
          {sorted.map((tray, index) => (
            <DayMark
              key={tray.id}
              tray={tray}
              left={placeHour(span, hours[index] ?? span.firstHour)}
              row={rows[index] ?? 0}
            />
          ))}
        </ol>
      </div>
    </section>
  );
}

interface DayMarkProps {
  tray: TodayTray;
  left: number;
  row: number;
}

function DayMark({ tray, left, row }: DayMarkProps): ReactNode {
  const t = useTexts();
  const { time } = useFormats();
  const done = tray.state === "cleared";
  const to = tray.records.length === 0 ? paths.tray(tray.id) : paths.chairside(tray.id);
  return (
    <li style={{ left: `${left}%`, "--row": row }}>
      <Link to={to} className={`day-mark ${done ? "done" : tray.verdict}`}>
        <span className="day-mark-time">{time(tray.appointmentAt)}</span>
        <span className="day-mark-tooth">
          {t.common.tooth(tray.teeth.map(showTooth).join(", "))}
        </span>
        <span className="day-mark-more">
          {tray.chartNumber} · {tray.locationName}
        </span>
        {done ? null : <VerdictWord verdict={tray.verdict} />}
      </Link>
    </li>
  );
}
