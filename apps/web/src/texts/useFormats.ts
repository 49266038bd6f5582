import { useMemo } from "react";
import { civilDateAt } from "#domain";
import { formatDate, makeTimeFormats } from "#texts";
import { serverNowMs } from "../api/server-clock.ts";
import { useSession } from "../session/session.ts";
import { useLanguage, type Language } from "./Texts.tsx";

/** Days and times as people read them: in the language chosen, in the practice's time zone. */
export interface Formats {
  language: Language;
  timeZone: string;
  /** A civil date, its month as a word. */
  date: (civilDate: string) => string;
  /** A civil date in little room. */
  shortDate: (civilDate: string) => string;
  /** Weekday and date. */
  day: (civilDate: string) => string;
  time: (instant: string) => string;
  dateTime: (instant: string) => string;
  /** The civil date of an instant. */
  civilDate: (instant: string) => string;
  /** Today's civil date by the server's clock. */
  today: () => string;
}

const locales: Readonly<Record<Language, string>> = { en: "en-GB", de: "de-DE" };

/** Makes the formats of a language and a time zone; pure. */
export function makeFormats(language: Language, timeZone: string): Formats {
  const locale = locales[language];
  const make = (options: Intl.DateTimeFormatOptions) => new Intl.DateTimeFormat(locale, options);
  // A civil date is read as midnight UTC and shown in UTC, so no zone can move it.
  const short = make({ day: "numeric", month: "short", year: "numeric", timeZone: "UTC" });
  const day = make({ weekday: "long", day: "numeric", month: "long", timeZone: "UTC" });
  const ofCivil = (format: Intl.DateTimeFormat) => (civilDate: string) => {
    const midnight = new Date(`${civilDate}T00:00:00Z`);
    return Number.isNaN(midnight.getTime()) ? civilDate : format.format(midnight);
  };
  return {
    language,
    timeZone,
    date: (civilDate) => formatDate(language, civilDate),
    shortDate: ofCivil(short),
    day: ofCivil(day),
    ...makeTimeFormats(language, timeZone),
    civilDate: (instant) => civilDateAt(instant, timeZone),
    today: () => civilDateAt(new Date(serverNowMs()).toISOString(), timeZone),
  };
}

export function useFormats(): Formats {
  const { language } = useLanguage();
  const session = useSession();
  const timeZone = session?.practice.timeZone ?? Intl.DateTimeFormat().resolvedOptions().timeZone;
  return useMemo(() => makeFormats(language, timeZone), [language, timeZone]);
}
