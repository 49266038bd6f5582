import { daysBetween } from "./civil-date.ts";
import type { Content, ProvisionalKind } from "./vocabulary.ts";

/** What can get onto a surface while it is sealed. */
export const contaminants = ["blood", "saliva"] as const;
export type Contaminant = (typeof contaminants)[number];

/** What was recorded of a sealed surface that waits for its restoration. */
export interface SealedSurface {
  sealedOn: string;
  /** A coat of resin lies on the adhesive. */
  coated: boolean;
  provisional: ProvisionalKind;
  /** The cement that held the provisional, where one was noted. */
  provisionalCement: { name: string; contents: readonly Content[] } | null;
  /** A separating agent was put on the seal. */
  separated: boolean;
  contaminated: readonly Contaminant[];
}

/** Steps and cautions in the order in which somebody comes to them. */
export const surfaceNeedCodes = [
  "remnants",
  "remnants-unknown",
  "eugenol",
  "eugenol-free",
  "resin-stuck",
  "separator-film",
  "contaminated",
  "clean",
  "roughen-coat",
  "roughen-thin",
  "bond-again",
  "long-wait",
  "longer-than-studied",
] as const;
export type SurfaceNeedCode = (typeof surfaceNeedCodes)[number];

/** Where a need comes from; its words are in the texts. */
export const surfaceNeedSources = [
  "common-practice",
  "eugenol-study",
  "eugenol-free-study",
  "provisional-study",
  "timing-study",
  "twelve-weeks",
  "from-memory",
] as const;
export type SurfaceNeedSource = (typeof surfaceNeedSources)[number];

/** One thing that a sealed surface asks for before the restoration is bonded to it. */
export interface SurfaceNeed {
  code: SurfaceNeedCode;
  level: "caution" | "info";
  /** The values and names the sentence needs. */
  numbers: Readonly<Record<string, string | number>>;
  source: SurfaceNeedSource;
}

/** Provisional phases were mostly studied for one and two weeks, KSDM timing study. */
const usualDays = 14;
/** Twelve weeks were the longest studied, Magne 2007 (from memory). */
const studiedDays = 84;

const resins: readonly Content[] = [
  "hema",
  "bis-gma",
  "udma",
  "tegdma",
  "mdp",
  "other-methacrylate",
];

type Told = readonly ["caution" | "info", SurfaceNeedSource, SurfaceNeed["numbers"]?];
type Needs = Partial<Record<SurfaceNeedCode, Told>>;

/**
 * What a sealed surface needs on the day `on` before it is bonded to, from what was recorded.
 * It names what to think of; how it is done is said by the instructions for use of the bonding
 * system and the cement, which come first. Steps are common practice, no source, unless one names
 * a study. Any provisional cement lowers the bond, one without eugenol, too: J Appl Oral Sci
 * 2010;18(1) and J Funct Biomater 2026;17(2):98. A resin provisional sticks to the seal: KSDM
 * timing study, s40563-016-0061-9.
 */
export function listSurfaceNeeds(surface: SealedSurface, on: string): readonly SurfaceNeed[] {
  const needs: Needs = {
    ...afterCement(surface),
    ...afterSeparating(surface),
    ...afterContamination(surface),
    clean: ["info", "common-practice"],
    ...(surface.coated
      ? { "roughen-coat": ["info", "common-practice"] }
      : { "roughen-thin": ["caution", "common-practice"] }),
    "bond-again": ["info", "common-practice"],
    ...afterDays(daysBetween(surface.sealedOn, on)),
  };
  return surfaceNeedCodes.flatMap((code): SurfaceNeed[] => {
    const told = needs[code];
    if (told === undefined) return [];
    const [level, source, numbers = {}] = told;
    return [{ code, level, numbers, source }];
  });
}

function afterCement(surface: SealedSurface): Needs {
  const { provisionalCement: cement, provisional } = surface;
  if (cement === null) {
    return provisional === "none" ? {} : { "remnants-unknown": ["caution", "common-practice"] };
  }
  const numbers = { cement: cement.name };
  return {
    remnants: ["info", "common-practice", numbers],
    ...(cement.contents.includes("eugenol")
      ? { eugenol: ["caution", "eugenol-study", numbers] }
      : { "eugenol-free": ["info", "eugenol-free-study", numbers] }),
  };
}

function afterSeparating(surface: SealedSurface): Needs {
  if (surface.separated) return { "separator-film": ["info", "common-practice"] };
  const isResin =
    surface.provisional === "resin" ||
    surface.provisionalCement?.contents.some((one) => resins.includes(one)) === true;
  return isResin ? { "resin-stuck": ["caution", "provisional-study"] } : {};
}

function afterContamination({ contaminated }: SealedSurface): Needs {
  const [first, second] = contaminated;
  if (first === undefined) return {};
  const reason = second === undefined || second === first ? first : "both";
  return { contaminated: ["caution", "from-memory", { reason }] };
}

function afterDays(days: number): Needs {
  if (days > studiedDays) {
    return { "longer-than-studied": ["caution", "twelve-weeks", { days, studiedDays }] };
  }
  return days > usualDays ? { "long-wait": ["info", "timing-study", { days, usualDays }] } : {};
}
