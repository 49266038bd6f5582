/** Findings that need a light, a technique, a place or a plan, as the API gives them. */
import { afterAll, beforeAll, expect, test } from "@jest/globals";
import { sayFinding } from "#texts";
import { openApp, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";
import { visitCases, type Bench } from "./visit-cases.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

test.each(visitCases)("$code is a $level where $holds", async ({ code, level, trayId, holds }) => {
  const bench: Bench = { it, make };
  const params = { trayId: await trayId(bench) };
  const { check } = (await it.practice.dentist.call("getTray", { params })).ok;
  const found = check.findings.filter((finding) => finding.code === code);
  expect(found).toHaveLength(1);
  expect(found[0]).toMatchObject({ level, ...holds });
  for (const language of ["en", "de"] as const) {
    const said = Object.values(sayFinding(language, found[0]!)).join(" ");
    expect(said).not.toMatch(/[{}[\]|]|undefined/);
  }
  if (level === "stop") expect(check.mayStart).toBe(false);
  await bench.after?.();
});
