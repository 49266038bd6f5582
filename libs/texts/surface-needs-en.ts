import type { Contaminant, SurfaceNeedCode, SurfaceNeedSource } from "#domain";

/** What a sealed surface needs before bonding: a title, and what to do. */
export interface SurfaceNeedText {
  title: string;
  sentence: string | Readonly<Record<Contaminant | "both", string>>;
}

/** In English. */
export const surfaceNeedsEn: Readonly<Record<SurfaceNeedCode, SurfaceNeedText>> = {
  remnants: {
    title: "Remove the remnants",
    sentence: "{cement} held the provisional: take off what is left of it, under magnification.",
  },
  "remnants-unknown": {
    title: "Cement not recorded",
    sentence:
      "A provisional was planned and no cement was noted: find out what held it, and take its " +
      "remnants off.",
  },
  eugenol: {
    title: "Eugenol was on the seal",
    sentence:
      "{cement} contains eugenol, which can weaken the bond: condition the surface thoroughly and " +
      "follow what the bonding cement's instructions say of eugenol.",
  },
  "eugenol-free": {
    title: "Without eugenol all the same",
    sentence:
      "{cement} has no eugenol on record, yet such a cement lowers the bond, too: condition.",
  },
  "resin-stuck": {
    title: "Resin may stick to the seal",
    sentence:
      "Resin lay on the seal and no separating agent was noted: look for resin that sticks, and " +
      "for places where the seal came off with it.",
  },
  "separator-film": {
    title: "Remove the separator",
    sentence: "A separating agent was put on the seal: clean its film off.",
  },
  contaminated: {
    title: "It was contaminated",
    sentence: {
      blood: "Blood was noted at the sealing: look at the seal closely before bonding to it.",
      saliva: "Saliva was noted at the sealing: look at the seal closely before bonding to it.",
      both: "Blood and saliva were noted at the sealing: look at the seal closely first.",
    },
  },
  clean: {
    title: "Clean",
    sentence: "Clean the sealed surface with what the instructions allow on it, and rinse.",
  },
  "roughen-coat": {
    title: "Roughen the coat",
    sentence: "Abrade the resin coat with air or roughen it, as the instructions say.",
  },
  "roughen-thin": {
    title: "Roughen with care",
    sentence:
      "No resin coat was noted, so the seal is thin: roughen it lightly, and seal again where " +
      "dentin shows.",
  },
  "bond-again": {
    title: "Prime the resin again",
    sentence: "Silane or adhesive again on the sealed surface, as the instructions say.",
  },
  "long-wait": {
    title: "Longer than usual",
    sentence: "{days} days since the sealing; studies mostly looked at up to {usualDays}.",
  },
  "longer-than-studied": {
    title: "Longer than studied",
    sentence:
      "{days} days since the sealing, and {studiedDays} are the longest studied: look whether the " +
      "seal is whole.",
  },
};

/** Where a need comes from, in English. */
export const surfaceSourcesEn: Readonly<Record<SurfaceNeedSource, string>> = {
  "common-practice": "common practice, no source",
  "eugenol-study": "J Appl Oral Sci 2010;18(1)",
  "eugenol-free-study": "J Funct Biomater 2026;17(2):98",
  "provisional-study": "KSDM timing study, s40563-016-0061-9, on provisionals",
  "timing-study": "KSDM timing study, s40563-016-0061-9",
  "twelve-weeks": "Magne 2007, from memory",
  "from-memory": "a custom of the trade, from memory",
};
