/** A product's facts in words, one by one. */
import { formatNumber, getMessages, type Language } from "#texts";
import type { ScreenTexts } from "#texts/screens-en";
import type { AnswerOf } from "#contracts/operations";

export type Product = AnswerOf<"getProduct">;
export type Identifier = Product["identifiers"][number];
/** What a person enters of a product. */
export type ProductInput = Omit<
  Product,
  "id" | "version" | "systemName" | "identifiers" | "confirmed"
>;
export type FactKey = keyof ScreenTexts["catalogue"]["facts"];

export interface Words {
  t: ScreenTexts["catalogue"];
  language: Language;
}
type Shown = ProductInput & { systemName: string | null };

/** A fact in words; `null` where the instructions, or whoever entered them, say nothing of it. */
export function sayFact(key: FactKey, product: Shown, words: Words): string | null {
  const { values } = words.t;
  const messages = getMessages(words.language);
  const seconds = (count: number | null) =>
    count === null ? null : values.seconds(formatNumber(words.language, count));
  switch (key) {
    case "kind":
      return messages.productKinds[product.kind];
    case "solvents":
      return sayList(product.solvents, messages.solvents, values.noSolvent);
    case "contents":
      return sayList(product.contents, messages.contents, values.noContents);
    case "strategy":
      return product.strategy === null ? null : messages.strategies[product.strategy];
    case "systemId":
      return product.systemName ?? values.noSystem;
    case "inUseLife":
      return sayLife(product.inUseLife, words);
    case "applicationSeconds":
    case "airDrySeconds":
    case "cureSeconds":
      return seconds(product[key]);
    case "radiantExposureJCm2":
      return sayNumber(product.radiantExposureJCm2, values.joules, words);
    case "fillerPercent":
      return sayNumber(product.fillerPercent, values.percent, words);
    case "modulusGpa":
      return sayNumber(product.modulusGpa, values.gigapascals, words);
    case "warmUpMinutes":
      return sayNumber(product.warmUpMinutes, values.minutes, words);
    case "dropLifeSeconds":
      return seconds(product.dropLifeSeconds);
    case "excursionLevel":
      return messages.levels[product.excursionLevel];
    case "storage":
      return sayStorage(product, words);
    case "singleUse":
      return product.singleUse ? values.yes : values.no;
    case "usesPerContainer":
      return product.usesPerContainer === null ? null : values.uses(product.usesPerContainer);
    case "name":
    case "labeler":
    case "ifuVersion":
      return product[key] === "" ? null : product[key];
  }
}

function sayNumber(
  value: number | null,
  say: (number: string) => string,
  { language }: Words,
): string | null {
  return value === null ? null : say(formatNumber(language, value));
}

function sayList<T extends string>(
  list: readonly T[] | null,
  names: Readonly<Record<T, string>>,
  empty: string,
): string | null {
  if (list === null) return null;
  return list.length === 0 ? empty : list.map((one) => names[one]).join(", ");
}

function sayLife(life: ProductInput["inUseLife"], { t }: Words): string | null {
  if (life === null) return null;
  return life.unit === "day" ? t.values.days(life.count) : t.values.months(life.count);
}

function sayStorage(product: Shown, { t, language }: Words): string | null {
  const { storageMinC: low, storageMaxC: high } = product;
  const degrees = (value: number) => formatNumber(language, value);
  if (low !== null && high !== null) return t.values.between(degrees(low), degrees(high));
  if (low !== null) return t.values.atLeast(degrees(low));
  return high === null ? null : t.values.atMost(degrees(high));
}

/** The facts that differ between two versions of an entry, in the order they are shown. */
export function listChanged(
  { before, after }: { before: Shown; after: Shown },
  words: Words,
): { key: FactKey; from: string; to: string }[] {
  const say = (key: FactKey, product: Shown) =>
    sayFact(key, product, words) ?? words.t.values.notStated;
  return (Object.keys(words.t.facts) as FactKey[])
    .map((key) => ({ key, from: say(key, before), to: say(key, after) }))
    .filter(({ from, to }) => from !== to);
}
