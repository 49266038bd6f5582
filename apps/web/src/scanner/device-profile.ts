/** How the scanner of this device is understood: kept on it, heard by whoever listens to keys. */
import { useSyncExternalStore } from "react";
import { scannerBounds, usualScannerProfile, type ScannerProfile } from "#labels";
import { readRemembered, remember } from "../ui/remembered.ts";
import type { WedgeSettings } from "./wedge.ts";

export interface ProfileToKeep {
  profile: ScannerProfile;
  /** When the set-up was done, ISO 8601; `null` before it. */
  setUpAt: string | null;
}

export interface KeptProfile extends ProfileToKeep {
  /** False while nobody has ever set anything. */
  isKept: boolean;
}

const name = "scanner";
const untouched: KeptProfile = { profile: usualScannerProfile, setUpAt: null, isKept: false };
const listeners = new Set<() => void>();

const within = (value: unknown, { min, max }: { min: number; max: number }): boolean =>
  typeof value === "number" && value >= min && value <= max;

/** What was kept, if it still has the form of today. */
function readProfile(told: Partial<ProfileToKeep> | null): KeptProfile | null {
  const { profile, setUpAt = null } = told ?? {};
  if (profile === undefined || !Array.isArray(profile.gsTokens)) return null;
  const { maxGapMs, minKeys } = scannerBounds;
  const fits = within(profile.maxGapMs, maxGapMs) && within(profile.minKeys, minKeys);
  if (!fits) return null;
  return { profile: { ...usualScannerProfile, ...profile }, setUpAt, isKept: true };
}

function readKept(): KeptProfile {
  let told: Partial<ProfileToKeep> | null;
  try {
    told = JSON.parse(readRemembered(name) ?? "null") as typeof told;
  } catch {
    return untouched;
  }
  return readProfile(told) ?? untouched;
}

let kept = readKept();

export const readDeviceProfile = (): KeptProfile => kept;

/** Keeps a profile on this device. */
export function keepDeviceProfile({ profile, setUpAt }: ProfileToKeep): void {
  kept = { profile, setUpAt, isKept: true };
  remember(name, JSON.stringify({ profile, setUpAt }));
  for (const listener of listeners) listener();
}

function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

export const useDeviceProfile = (): KeptProfile =>
  useSyncExternalStore(subscribe, readDeviceProfile);

/** The separators to be told with the texts of this device's scanner. */
export function tokensOfDevice(): { gsTokens?: string[] } {
  const { gsTokens } = kept.profile;
  return gsTokens.length === 0 ? {} : { gsTokens };
}

const endsOf = {
  Enter: { endKeys: ["Enter"], endsBySilence: false },
  Tab: { endKeys: ["Tab"], endsBySilence: false },
  either: { endKeys: ["Enter", "Tab"], endsBySilence: false },
  none: { endKeys: [], endsBySilence: true },
} as const satisfies Record<ScannerProfile["endKey"], Partial<WedgeSettings>>;

/** What the listener to keys needs of a profile. */
export function settingsOf({ endKey, maxGapMs, minKeys }: ScannerProfile): WedgeSettings {
  return { maxGapMs, minKeys, ...endsOf[endKey] };
}

/** For a scanner that nobody knows yet: slow ones, too, and whatever they send at the end. */
export const observingSettings: WedgeSettings = {
  maxGapMs: 150,
  minKeys: 4,
  endKeys: [],
  endsBySilence: true,
};
