import { describe, expect, test } from "@jest/globals";
import { deviations, timedParts } from "#domain";
import { sayEvent, type ToldEvent } from "./say-event.ts";

const say = (language: "en" | "de", kind: string, facts: ToldEvent["facts"] = {}) =>
  sayEvent(language, { kind, facts }, "Coat");

const cure = {
  seconds: 22,
  light: "Lamp 1",
  mode: "Standard",
  distanceTenthMm: 40,
  irradianceMwCm2: 806,
  known: "measured",
  givenJCm2: 17.73,
  neededJCm2: 17,
};

describe("an entry of a record in words", () => {
  test("says a cure with its light, distance and exposure", () => {
    expect(say("en", "cure", cure)).toEqual({
      title: "Coat: light-cured for 22 s",
      details: [
        "Lamp 1",
        "Standard",
        "4 mm away",
        "806 mW/cm²",
        "17.73 J/cm² of 17 J/cm² asked for",
      ],
    });
    expect(say("de", "cure", { ...cure, known: "estimate" }).details).toEqual([
      "Lamp 1",
      "Standard",
      "4 mm entfernt",
      "806 mW/cm², geschätzt",
      "17,73 J/cm² von verlangten 17 J/cm²",
    ]);
  });

  test("says what is not known of a cure", () => {
    const unknown = { light: "", mode: null, irradianceMwCm2: null, givenJCm2: null };
    expect(say("en", "cure", { ...cure, ...unknown }).details).toEqual([
      "a light not on the list",
      "4 mm away",
      "exposure not known",
    ]);
  });

  test.each([
    ["step-done", { seconds: 33 }, "Coat: done", ["33 s by the timer"]],
    ["part-started", { part: "air-dry", seconds: 10 }, "Coat: air-drying begun", ["10 s planned"]],
    ["thickness", { tenthMm: 6 }, "Coat: 0.6 mm thick", []],
    ["material", { emptied: true }, "Coat: container swapped", ["the one before was empty"]],
    ["material", { container: "c" }, "Coat: container noted afterwards", []],
    ["deviation", { what: "saliva", text: "wiped" }, "Coat: saliva", ["wiped"]],
    ["step-left-out", { reason: "not needed" }, "Coat: left out", ["not needed"]],
    ["note", { text: "calm" }, "Note", ["calm"]],
    ["of-tomorrow", {}, "Of-tomorrow", []],
  ])("says %s", (kind, facts, title, details) => {
    expect(say("en", kind, facts)).toEqual({ title, details });
  });

  test("needs no step where it stands under its step", () => {
    const told = { kind: "deviation", facts: { what: "other", text: "power cut" } };
    expect(sayEvent("en", told, "")).toEqual({ title: "Deviation", details: ["power cut"] });
    expect(sayEvent("de", told, "").title).toBe("Abweichung");
    expect(sayEvent("en", { kind: "cure", facts: cure }, "").title).toBe("Light-cured for 22 s");
  });

  test("has a word for every part and deviation, in every language", () => {
    for (const language of ["en", "de"] as const) {
      for (const part of timedParts) {
        expect(say(language, "part-started", { part, seconds: 1 }).title).toMatch(/^Coat: \S/);
      }
      for (const what of deviations) {
        expect(say(language, "deviation", { what }).title).not.toContain(`: ${what}-`);
      }
    }
  });
});
