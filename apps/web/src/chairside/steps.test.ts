import { describe, expect, test } from "@jest/globals";
import type { OutboxEntry } from "../outbox/entry.ts";
import {
  listAlongside,
  listLacking,
  listNewStops,
  listUnmeasured,
  stepToWork,
  withWaiting,
  type RecordView,
} from "./steps.ts";
import type { RecordStep } from "./timer.ts";

const step = (key: string, facts: Partial<RecordStep> = {}): RecordStep => ({
  key,
  name: key,
  required: true,
  usesMaterial: true,
  applicationSeconds: null,
  airDrySeconds: null,
  cureSeconds: null,
  containers: [],
  done: false,
  leftOut: false,
  startedAt: null,
  running: null,
  dispensedAt: null,
  dropLifeSeconds: null,
  thickness: null,
  cures: [],
  neededJCm2: null,
  light: null,
  ...facts,
});
const waiting = (kind: string, stepKey: string, facts: object = {}): OutboxEntry =>
  ({
    route: "addRecordEvent",
    body: { kind, stepKey, ...facts },
    at: "2026-03-02T09:00:00.000Z",
    personName: "P",
    refused: null,
  }) as unknown as OutboxEntry;
const stop = (code: string, overridden: object | null = null) => ({
  code,
  level: "stop",
  overridden,
  subject: { itemId: null, stepKey: "bond" },
});
const record = (facts: object): RecordView =>
  ({
    steps: [],
    events: [],
    materials: [],
    check: { findings: [] },
    startCheck: { findings: [] },
    ...facts,
  }) as unknown as RecordView;

describe("the steps of a record at the chair", () => {
  const drawn = record({ steps: [step("prime"), step("bond")] });

  test("count as begun and done as soon as this device has kept it", () => {
    const sent = [waiting("step-started", "prime"), waiting("step-done", "prime")];
    expect(withWaiting(drawn, sent).steps).toMatchObject([
      { done: true, startedAt: "2026-03-02T09:00:00.000Z" },
      { done: false, startedAt: null },
    ]);
  });

  test("tell a part begun, a drop dispensed and a layer measured before they are sent", () => {
    const at = "2026-03-02T09:05:00.000Z";
    const sent = [
      waiting("part-started", "prime", { part: "application", seconds: 20, occurredAt: at }),
      waiting("dispensed", "prime", { occurredAt: at }),
      waiting("thickness", "coat", { tenthMm: 7 }),
      waiting("step-left-out", "prime"),
    ];
    const range = { min: 5, max: 10, measured: null };
    const coated = record({ steps: [step("prime"), step("coat", { thickness: range })] });
    const told = withWaiting(coated, sent);
    expect(told.steps).toMatchObject([
      { startedAt: at, dispensedAt: at, leftOut: true },
      { thickness: { measured: 7 } },
    ]);
    expect(told.events[0]).toMatchObject({
      kind: "part-started",
      stepKey: "prime",
      facts: { part: "application", seconds: 20 },
      occurredAt: at,
    });
  });

  test("take nothing from what the server has refused", () => {
    const refused = { ...waiting("step-done", "prime"), refused: {} } as unknown as OutboxEntry;
    expect(withWaiting(drawn, [refused])).toBe(drawn);
  });

  test("are worked in order, leaving out what was left out, until only signing is left", () => {
    const steps = [
      step("isolate", { done: true }),
      step("clean", { required: false }),
      step("bond"),
    ];
    expect(stepToWork(steps, null)?.key).toBe("clean");
    const without = steps.map((one) => (one.key === "clean" ? { ...one, leftOut: true } : one));
    expect(stepToWork(without, null)?.key).toBe("bond");
    expect(stepToWork(steps, "isolate")?.key).toBe("isolate");
    expect(stepToWork([step("isolate", { done: true })], null)).toBeNull();
  });

  test("go together on the teeth that stand at the same one", () => {
    const etched = record({ steps: [step("etch"), step("prime")] });
    const other = record({ steps: [step("prime")] });
    expect(listAlongside([etched, other], "prime")).toEqual([other]);
    expect(listAlongside([etched, other], "etch")).toEqual([etched]);
  });

  test("ask for a layer not measured once they are done", () => {
    const thickness = { min: 5, max: 10, measured: null };
    const steps = [
      step("coat", { done: true, thickness }),
      step("later", { thickness }),
      step("told", { done: true, thickness: { ...thickness, measured: 6 } }),
    ];
    expect(listUnmeasured(record({ steps })).map(({ key }) => key)).toEqual(["coat"]);
  });
});

describe("what keeps a record from being signed", () => {
  const steps = [
    step("isolate", { usesMaterial: false, done: true }),
    step("bond", { done: true }),
    step("provisional", { required: false }),
  ];

  test("is a required step not done, or done without a material on record", () => {
    expect(listLacking(record({ steps })).map(({ key }) => key)).toEqual(["bond"]);
    const materials = [{ stepKey: "bond" }];
    expect(listLacking(record({ steps, materials }))).toEqual([]);
    expect(listLacking(record({ materials, steps: [step("bond")] })).map(({ key }) => key)).toEqual(
      ["bond"],
    );
  });

  test("is not a step whose missing material a dentist has passed", () => {
    const check = { findings: [stop("missing", { by: "D" })] };
    expect(listLacking(record({ steps, check }))).toEqual([]);
  });
});

test("only stops that came after the start of priming are told again", () => {
  const startCheck = { findings: [stop("drying-too-short", { by: "D" })] };
  const check = {
    findings: [stop("drying-too-short"), stop("withdrawn"), stop("missing", { by: "D" })],
  };
  expect(listNewStops(record({ startCheck, check })).map(({ code }) => code)).toEqual([
    "withdrawn",
  ]);
});
