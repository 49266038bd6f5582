import { describe, expect, test } from "@jest/globals";
import type { OutboxEntry } from "../outbox/entry.ts";
import { listLacking, listNewStops, stepToWork, withWaiting, type RecordView } from "./steps.ts";
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
  light: null,
  ...facts,
});
const waiting = (kind: string, stepKey: string): OutboxEntry =>
  ({
    route: "addRecordEvent",
    body: { kind, stepKey },
    at: "2026-03-02T09:00:00.000Z",
  }) as unknown as OutboxEntry;
const stop = (code: string, overridden: object | null = null) => ({
  code,
  level: "stop",
  overridden,
  subject: { itemId: null, stepKey: "bond" },
});
const record = (facts: object): RecordView =>
  ({
    materials: [],
    check: { findings: [] },
    startCheck: { findings: [] },
    ...facts,
  }) as unknown as RecordView;

describe("the steps of a record at the chair", () => {
  test("count as begun and done as soon as this device has kept it", () => {
    const sent = [waiting("step-started", "prime"), waiting("step-done", "prime")];
    expect(withWaiting([step("prime"), step("bond")], sent)).toMatchObject([
      { done: true, startedAt: "2026-03-02T09:00:00.000Z" },
      { done: false, startedAt: null },
    ]);
  });

  test("are worked in order, leaving out what was left out, until only signing is left", () => {
    const steps = [
      step("isolate", { done: true }),
      step("clean", { required: false }),
      step("bond"),
    ];
    expect(stepToWork(steps, null, new Set())?.key).toBe("clean");
    expect(stepToWork(steps, null, new Set(["clean"]))?.key).toBe("bond");
    expect(stepToWork(steps, "isolate", new Set())?.key).toBe("isolate");
    expect(stepToWork([step("isolate", { done: true })], null, new Set())).toBeNull();
  });
});

describe("what keeps a record from being signed", () => {
  const steps = [
    step("isolate", { usesMaterial: false, done: true }),
    step("bond", { done: true }),
    step("provisional", { required: false }),
  ];

  test("is a required step not done, or done without a material on record", () => {
    expect(listLacking(record({}), steps).map(({ key }) => key)).toEqual(["bond"]);
    const materials = [{ stepKey: "bond" }];
    expect(listLacking(record({ materials }), steps)).toEqual([]);
    expect(listLacking(record({ materials }), [step("bond")]).map(({ key }) => key)).toEqual([
      "bond",
    ]);
  });

  test("is not a step whose missing material a dentist has passed", () => {
    const check = { findings: [stop("missing", { by: "D" })] };
    expect(listLacking(record({ check }), steps)).toEqual([]);
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
