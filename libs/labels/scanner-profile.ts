/** What a burst of keys came to, read in two ways. */
export type ScannerBurst = {
  /** As the host's keyboard layout made characters of the keys. */
  typed: string;
  /** As a United States keyboard would have, by the place of each key and Shift. */
  byPosition: string;
};

/**
 * How the scanner of one device is understood. `gsTokens` go to `readLabel` as they are. `prefix`
 * and `suffix` are what the scanner adds to every label. `keyboard` says which text of a burst is
 * the label: what was typed, or what the places of the keys say, for a scanner set to a United
 * States keyboard on a host with another. `endKey` ends a burst: Enter, Tab, either of them, or
 * none, and then a pause does. `maxGapMs` is the longest time between two keys of one burst and
 * `minKeys` the fewest that are one.
 */
export type ScannerProfile = {
  gsTokens: string[];
  prefix: string;
  suffix: string;
  keyboard: "as-typed" | "by-position";
  endKey: "Enter" | "Tab" | "either" | "none";
  maxGapMs: number;
  minKeys: number;
};

/**
 * Before a set-up: a scanner as it comes from the factory. Six keys, since shorter codes are typed
 * by hand; 35 ms, which a slow Bluetooth scanner keeps and people, who need 60, do not.
 */
export const usualScannerProfile: ScannerProfile = {
  gsTokens: [],
  prefix: "",
  suffix: "",
  keyboard: "as-typed",
  endKey: "either",
  maxGapMs: 35,
  minKeys: 6,
};

/** The bounds within which timing may be set by hand. */
export const scannerBounds = {
  maxGapMs: { min: 10, max: 60 },
  minKeys: { min: 4, max: 12 },
} as const;

/**
 * Answers the raw text of a burst for `readLabel`: the text that the profile trusts, without the
 * prefix and suffix that the scanner adds to every label. A burst that lacks either keeps what it
 * has. Separators stay as they came; the profile's `gsTokens` tell `readLabel` what they mean.
 */
export function applyScannerProfile(profile: ScannerProfile, burst: ScannerBurst): string {
  const { prefix, suffix, keyboard } = profile;
  let text = keyboard === "by-position" ? burst.byPosition : burst.typed;
  if (prefix !== "" && text.startsWith(prefix)) text = text.slice(prefix.length);
  if (suffix !== "" && text.endsWith(suffix)) text = text.slice(0, text.length - suffix.length);
  return text;
}
