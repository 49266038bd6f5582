/**
 * Answers a lot number as two people would compare it when reading it aloud: upper case, without
 * spaces, hyphens and any other punctuation. A lot of punctuation alone stays as it is. It serves
 * to offer look-alikes to a person; two lots are the same only when they are equal byte for byte
 * (GS1 General Specifications 7.11: values are case-sensitive). Project rule.
 */
export function normaliseLot(text: string): string {
  const bare = text.toUpperCase().replaceAll(/[^\p{L}\p{N}]+/gu, "");
  return bare === "" ? text : bare;
}

/** Characters that print or handwriting confuses, folded to the digit they resemble. */
const LOOK_ALIKES: Readonly<Record<string, string>> = {
  O: "0",
  Q: "0",
  D: "0",
  I: "1",
  L: "1",
  Z: "2",
  S: "5",
  G: "6",
  B: "8",
};

/**
 * Answers a key under which lots that look alike meet: normalised, with O, Q and D read as 0, I and
 * L as 1, Z as 2, S as 5, G as 6 and B as 8. Equal keys are a reason to show both lots to a person,
 * never to match them. Project rule; no source.
 */
export function lotLookAlikeKey(text: string): string {
  return normaliseLot(text).replaceAll(/[A-Z]/g, (letter) => LOOK_ALIKES[letter] ?? letter);
}
