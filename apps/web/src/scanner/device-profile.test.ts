import { beforeEach, describe, expect, test } from "@jest/globals";
import { usualScannerProfile } from "#labels";
import {
  keepDeviceProfile,
  readDeviceProfile,
  settingsOf,
  tokensOfDevice,
} from "./device-profile.ts";

const profile = { ...usualScannerProfile, gsTokens: ["{F8}"], endKey: "none" as const };

describe("the profile of this device", () => {
  beforeEach(() => keepDeviceProfile({ profile: usualScannerProfile, setUpAt: null }));

  test("is what was kept last, with when it was set up", () => {
    const setUpAt = "2026-06-15T08:00:00.000Z";
    keepDeviceProfile({ profile, setUpAt });
    expect(readDeviceProfile()).toEqual({ profile, setUpAt, isKept: true });
  });

  test("tells its separators only where it has some", () => {
    expect(tokensOfDevice()).toEqual({});
    keepDeviceProfile({ profile, setUpAt: null });
    expect(tokensOfDevice()).toEqual({ gsTokens: ["{F8}"] });
  });

  test("says what ends a burst", () => {
    const endsOf = (endKey: "Enter" | "Tab" | "either" | "none") => {
      const { endKeys, endsBySilence } = settingsOf({ ...profile, endKey });
      return [...endKeys, ...(endsBySilence ? ["silence"] : [])];
    };
    expect(endsOf("Enter")).toEqual(["Enter"]);
    expect(endsOf("Tab")).toEqual(["Tab"]);
    expect(endsOf("either")).toEqual(["Enter", "Tab"]);
    expect(endsOf("none")).toEqual(["silence"]);
  });
});
