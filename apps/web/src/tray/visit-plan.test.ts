import { describe, expect, test } from "@jest/globals";
import {
  applyTemplate,
  asksFor,
  findFaults,
  listTeeth,
  listTyped,
  modesOf,
  planLikewise,
  readVisit,
  toggleTooth,
  usualTooth,
  type Technique,
  type Template,
  type VisitPlan,
} from "./visit-plan.ts";

const zone = "Europe/Berlin";
const plan = (facts: Partial<VisitPlan> = {}): VisitPlan => ({
  chartNumber: "C-1",
  teethText: "16",
  usual: usualTooth,
  details: {},
  techniqueId: "t",
  locationId: "l",
  day: "2026-06-15",
  time: "10:00",
  bondingOn: "",
  templateId: "",
  ...facts,
});
const technique = (...whens: (object | null)[]): Technique =>
  ({ steps: whens.map((when) => ({ when })) }) as unknown as Technique;
const byMode = { modes: ["etch-and-rinse"], provisional: null, undercut: null };
const byProvisional = { modes: null, provisional: "resin", undercut: null };

describe("the teeth of a visit", () => {
  test("are read from what is typed, each once", () => {
    expect(listTyped(" 16, 26;16 \n36")).toEqual(["16", "26", "36"]);
  });

  test("are planned as the first one, each with its own surfaces", () => {
    const told = { ...usualTooth, mode: "etch-and-rinse", restoration: "onlay" } as const;
    const details = {
      "16": { ...told, surfaces: "MOD" },
      "26": { ...usualTooth, surfaces: "MO" },
      "36": { ...usualTooth, undercut: true },
    };
    const visit = plan({ teethText: "16 26", details });
    const next = planLikewise(visit, listTeeth(visit, technique(byMode)));
    expect(next["16"]).toEqual(details["16"]);
    expect(next["26"]).toEqual({ ...told, surfaces: "MO" });
    // One that is not of the visit keeps what was told of it.
    expect(next["36"]).toBe(details["36"]);
    expect(planLikewise(plan({ details }), [])).toBe(details);
  });

  test("are put in and taken out by a tap", () => {
    expect(toggleTooth("16", "26")).toBe("16 26");
    expect(toggleTooth("16 26", "16")).toBe("26");
    expect(toggleTooth("", "11")).toBe("11");
  });

  test("have a mode where a step asks for one, the mildest unless another is chosen", () => {
    expect(modesOf(technique(null, byMode))).toHaveLength(3);
    expect(modesOf(technique(null, byProvisional))).toEqual([]);
    const details = { "26": { ...usualTooth, mode: "etch-and-rinse" as const } };
    const both = plan({ teethText: "16 26", details });
    expect(listTeeth(both, technique(byMode)).map(({ mode }) => mode)).toEqual([
      "self-etch",
      "etch-and-rinse",
    ]);
    expect(listTeeth(both, technique(null)).map(({ mode }) => mode)).toEqual([null, null]);
  });

  test("are asked of a provisional or undercut where a step depends on it", () => {
    expect(asksFor(technique(byProvisional), "provisional")).toBe(true);
    expect(asksFor(technique(byProvisional), "undercut")).toBe(false);
    expect(asksFor(undefined, "undercut")).toBe(false);
  });
});

describe("a plan", () => {
  test("becomes a visit at the practice's own time", () => {
    expect(readVisit(plan({ bondingOn: "2026-06-29" }), technique(null), zone)).toEqual({
      chartNumber: "C-1",
      teeth: [{ ...usualTooth, tooth: "16" }],
      techniqueId: "t",
      locationId: "l",
      appointmentAt: "2026-06-15T08:00:00.000Z",
      bondingOn: "2026-06-29",
      templateId: null,
    });
  });

  test("begins with a template, which says what is usual of its teeth", () => {
    const template: Template = {
      ...{ id: "m", name: "Crowns", technique: { id: "t2", name: "Other" } },
      ...{ location: { id: "l2", name: "Operatory 2" }, mode: "etch-and-rinse" },
      ...{ provisional: "resin", undercut: true, products: [] },
    };
    const details = { "26": { ...usualTooth, surfaces: "MO" } };
    const begun = applyTemplate(plan({ teethText: "16 26", details }), template);
    expect(readVisit(begun, technique(byMode), zone)).toMatchObject({
      ...{ techniqueId: "t2", locationId: "l2", templateId: "m" },
      teeth: [
        { tooth: "16", mode: "etch-and-rinse", provisional: "resin", undercut: true },
        { tooth: "26", surfaces: "MO", provisional: "none", undercut: false },
      ],
    });
    // Out of use: the technique that stood there stays.
    expect(applyTemplate(plan(), { ...template, technique: null }).techniqueId).toBe("t");
    expect(applyTemplate(begun, undefined)).toMatchObject({ templateId: "", usual: usualTooth });
  });

  test.each<[Partial<VisitPlan>, object]>([
    [{ teethText: "" }, { teeth: "none" }],
    [{ teethText: "16 99" }, { teeth: "unknown" }],
    [{ time: "" }, { time: true }],
    [
      { teethText: "11 16", details: { "11": { ...usualTooth, surfaces: "MOD" } } },
      { surfaces: { "11": true, "16": false } },
    ],
  ])("is not sent with %j", (facts, faults) => {
    expect(findFaults(plan(facts), zone)).toMatchObject(faults);
    expect(readVisit(plan(facts), technique(null), zone)).toBeNull();
  });
});
