import { firstMessages } from "#texts/first-messages";
import type { Messages } from "./en.ts";

/** The languages there are texts in. */
export const languages = ["en", "de"] as const;
/** One of them. */
export type Language = (typeof languages)[number];

const messagesByLanguage: Partial<Record<Language, Messages>> = { ...firstMessages };

/** Makes a language's texts known, where they were not there from the start: in a browser. */
export function addMessages(language: Language, messages: Messages): void {
  messagesByLanguage[language] = messages;
}

/** All texts of a language, by section; the word lists are keyed by the domain's own codes. */
export function getMessages(language: Language): Messages {
  const messages = messagesByLanguage[language];
  if (messages === undefined) throw new Error(`the texts of '${language}' are not loaded`);
  return messages;
}

// English dates as they are written where the day comes first; the month is a word all the same.
const locales: Readonly<Record<Language, string>> = { en: "en-GB", de: "de-DE" };

interface Formats {
  date: Intl.DateTimeFormat;
  number: Intl.NumberFormat;
  plural: Intl.PluralRules;
}
const formatsByLanguage = new Map<Language, Formats>();

function getFormats(language: Language): Formats {
  let formats = formatsByLanguage.get(language);
  if (formats === undefined) {
    const locale = locales[language];
    formats = {
      // The civil date is read as midnight UTC and shown in UTC, so no zone can move it.
      date: new Intl.DateTimeFormat(locale, {
        day: "numeric",
        month: "long",
        year: "numeric",
        timeZone: "UTC",
      }),
      number: new Intl.NumberFormat(locale),
      plural: new Intl.PluralRules(locale),
    };
    formatsByLanguage.set(language, formats);
  }
  return formats;
}

/**
 * A civil date `YYYY-MM-DD` for people, with its month as a word: `3 February 2026`, `3. Februar
 * 2026`. A text that is no date is given back as it is.
 */
export function formatDate(language: Language, civilDate: string): string {
  const instant = new Date(`${civilDate}T00:00:00Z`);
  return Number.isNaN(instant.getTime()) ? civilDate : getFormats(language).date.format(instant);
}

/** A number for people: the language's own decimal mark and grouping, at most three decimals. */
export function formatNumber(language: Language, number: number): string {
  return getFormats(language).number.format(number);
}

/** The form of a word that goes with a count, of the forms for one and for any other count. */
export function plural(
  language: Language,
  count: number,
  forms: { one: string; other: string },
): string {
  return getFormats(language).plural.select(count) === "one" ? forms.one : forms.other;
}

/** Instants for people, in a time zone: the time of day, and date with time. */
export function makeTimeFormats(
  language: Language,
  timeZone: string,
): Record<"time" | "dateTime", (instant: string) => string> {
  const make = (options: Intl.DateTimeFormatOptions) => {
    const format = new Intl.DateTimeFormat(locales[language], { ...options, timeZone });
    return (instant: string) => format.format(new Date(instant));
  };
  return {
    time: make({ hour: "2-digit", minute: "2-digit" }),
    dateTime: make({ dateStyle: "medium", timeStyle: "short" }),
  };
}
