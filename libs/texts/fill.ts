import { formatDate, formatNumber, getMessages, plural, type Language } from "./format.ts";

/** The values that a text is filled with. */
export type Values = Readonly<Record<string, string | number>>;

function nameWord(words: Readonly<Record<string, string>>, word: string): string {
  return words[word] ?? word;
}

function nameList(
  language: Language,
  list: { words: Readonly<Record<string, string>>; text: string; empty: string },
): string {
  const names = list.text.split(",").map((word) => nameWord(list.words, word));
  const last = names.pop() ?? "";
  if (names.length === 0) return last === "" ? list.empty : last;
  return `${names.join(", ")} ${getMessages(language).or} ${last}`;
}

type Unit = "days" | "months" | "minutes" | "seconds";

function count(language: Language, unit: Unit, value: string | number): string {
  const number = Number(value);
  const form = plural(language, number, getMessages(language).units[unit]);
  return form.replace("{count}", formatNumber(language, number));
}

function format(language: Language, kind: string, value: string | number): string {
  const messages = getMessages(language);
  const text = String(value);
  switch (kind) {
    case "date":
      return formatDate(language, text);
    case "days":
    case "months":
    case "minutes":
    case "seconds":
      return count(language, kind, value);
    case "kind":
      return nameWord(messages.productKinds, text);
    case "kinds": {
      const { productKinds: words, nothing } = messages;
      return nameList(language, { words, text, empty: nothing.kinds });
    }
    case "solvent":
      return nameWord(messages.solvents, text);
    case "solvents": {
      const { solvents: words, nothing } = messages;
      return nameList(language, { words, text, empty: nothing.solvents });
    }
    case "strategy":
      return nameWord(messages.strategies, text);
    case "content":
    case "contents":
      return text
        .split(",")
        .map((word) => nameWord(messages.contents, word))
        .join(", ");
    case "absence":
      return nameWord(messages.absences, text);
    default:
      return typeof value === "number" ? formatNumber(language, value) : text;
  }
}

const placeholder = /\{(\w+)(?:\|(\w+))?\}/g;

/**
 * Fills the placeholders of a text. `{name}` is the value itself, `{name|format}` the value as
 * `date`, `days`, `months`, `minutes`, `seconds`, `kind`, `kinds`, `solvent`, `solvents`, `strategy`,
 * `content`, `contents` or
 * `absence`. A part in square brackets falls away where one of its values is not given; elsewhere
 * a placeholder without a value stays as it is, which is seen and never mistaken for a value.
 */
export function fill(language: Language, text: string, values: Values): string {
  return text
    .replace(/\[([^\]]*)\]/g, (_, part: string) =>
      [...part.matchAll(placeholder)].every(([, name]) => values[name ?? ""] !== undefined)
        ? part
        : "",
    )
    .replace(placeholder, (whole, name: string, kind: string | undefined) => {
      const value = values[name];
      return value === undefined ? whole : format(language, kind ?? "", value);
    });
}
