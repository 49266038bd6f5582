import { describe, expect, test } from "@jest/globals";
import { fillCheckSettings, isRaisable, startingCheckSettings } from "./check-settings.ts";
import { allChecks } from "./checks/all-checks.ts";
import { solvents } from "./vocabulary.ts";

describe("the settings of the checks", () => {
  test("are the starting ones where a practice has set nothing", () => {
    expect(fillCheckSettings({})).toEqual(startingCheckSettings);
  });

  test("keep what is set, each solvent by itself", () => {
    const set = fillCheckSettings({ airDrySeconds: { water: 20 }, raised: ["unconfirmed"] });
    expect(set).toEqual({
      shortDatedDays: 30,
      airDrySeconds: { acetone: 5, ethanol: 10, "tert-butanol": 10, water: 20 },
      lightCeilingMwCm2: 2000,
      lightFloorMwCm2: 400,
      lightCheckDays: 30,
      waitingLimitDays: 21,
      raised: ["unconfirmed"],
    });
  });

  // Order of volatility: Antoine fits, Smith/Van Ness/Abbott, Table B.2.
  test("dry no solvent shorter than a faster one", () => {
    const seconds = solvents.map((solvent) => startingCheckSettings.airDrySeconds[solvent]);
    expect(seconds).toEqual([...seconds].sort((a, b) => a - b));
  });

  test("raise cautions alone", () => {
    const raisable = allChecks.filter(({ code }) => isRaisable(code));
    expect(raisable.map(({ code }) => code).sort()).toEqual([
      "blocking-agent",
      "cold",
      "drop-aging",
      "ends-before-bonding",
      "eugenol",
      "exposure-extreme",
      "light-check-overdue",
      "modulus-or-filler-low",
      "short-dated",
      "storage-excursion",
      "thickness-range",
      "unconfirmed",
    ]);
    expect(raisable.every(({ level }) => level === "caution")).toBe(true);
  });
});
