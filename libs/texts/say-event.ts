import { fill, type Values } from "./fill.ts";
import { getMessages, type Language } from "./format.ts";

/** An entry of a record, as the server gives it. */
export interface ToldEvent {
  kind: string;
  facts: Readonly<Record<string, unknown>>;
}

/** What happened, and the numbers and words that belong to it. */
export interface SaidEvent {
  title: string;
  details: readonly string[];
}

/**
 * An entry of a record in the words of a language. `step` is the name of its step, empty where it
 * belongs to none. An entry of a kind that is not known, as from a newer server, is said by its
 * code.
 */
export function sayEvent(language: Language, { kind, facts }: ToldEvent, step: string): SaidEvent {
  const { titles, parts, deviations } = getMessages(language).recordEvents;
  const seconds = numberOf(facts["seconds"]);
  const tenths = numberOf(facts["tenthMm"]);
  const what = typeof facts["what"] === "string" ? facts["what"] : "other";
  const values: Values = {
    ...(step === "" ? {} : { step }),
    ...(seconds === null ? {} : { seconds }),
    ...(tenths === null ? {} : { millimetres: tenths / 10 }),
    deviation: deviations[what] ?? what,
  };
  // An amendment notes a container by itself; a swap tells what it replaces.
  const name = kind === "material" && facts["container"] !== undefined ? "noted" : kind;
  const text = kind === "part-started" ? parts[String(facts["part"])] : titles[name];
  const title = capital(fill(language, text ?? kind, values));
  return { title, details: sayDetails(language, { kind, facts }, seconds) };
}

const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

const numberOf = (value: unknown): number | null => (typeof value === "number" ? value : null);

function sayDetails(
  language: Language,
  { kind, facts }: ToldEvent,
  seconds: number | null,
): readonly string[] {
  const { planned, ran, emptied } = getMessages(language).recordEvents;
  const said: string[] = [];
  if (kind === "cure") said.push(...sayCure(language, facts));
  if (kind === "part-started" && seconds !== null) said.push(fill(language, planned, { seconds }));
  if (kind === "step-done" && seconds !== null) said.push(fill(language, ran, { seconds }));
  if (facts["emptied"] === true) said.push(emptied);
  for (const words of [facts["text"], facts["reason"]]) {
    if (typeof words === "string" && words !== "") said.push(words);
  }
  return said;
}

/** A cure's light, distance and radiant exposure. */
function sayCure(language: Language, facts: ToldEvent["facts"]): string[] {
  const { otherLight, distance, exposure, exposureUnknown, known } =
    getMessages(language).recordEvents;
  const [light, mode] = [facts["light"], facts["mode"]];
  const [given, needed] = [numberOf(facts["givenJCm2"]), numberOf(facts["neededJCm2"])];
  const irradiance = numberOf(facts["irradianceMwCm2"]);
  const tenths = numberOf(facts["distanceTenthMm"]);
  const level = known[String(facts["known"])];
  return [
    typeof light === "string" && light !== "" ? light : otherLight,
    typeof mode === "string" ? mode : "",
    tenths === null ? "" : fill(language, distance, { millimetres: tenths / 10 }),
    irradiance === null || level === undefined ? "" : fill(language, level, { irradiance }),
    given === null
      ? exposureUnknown
      : fill(language, exposure, { given, ...(needed === null ? {} : { needed }) }),
  ].filter((part) => part !== "");
}
