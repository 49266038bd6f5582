/** Techniques: copied from the starters, edited as new versions, confirmed, retired. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { BodyOf } from "#contracts/operations";
import { openApp, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

type Steps = BodyOf<"addTechnique">["steps"];
const steps: Steps = [{ key: "coat", name: "Resin coat", accepts: ["flowable"] }];
const add = async (over: Partial<BodyOf<"addTechnique">> = {}) =>
  it.practice.dentist.call("addTechnique", {
    body: { name: make.name("T"), visit: "sealing", steps, ...over },
  });
const change = (techniqueId: string, over: Partial<BodyOf<"changeTechnique">> = {}) =>
  it.practice.dentist.call("changeTechnique", {
    params: { techniqueId },
    body: { name: make.name("T"), steps, ...over },
  });
const confirm = (techniqueId: string) =>
  it.practice.dentist.call("confirmTechnique", { params: { techniqueId }, body: {} });
const listed = async () =>
  (await it.practice.assistant.call("listTechniques")).ok.techniques.map(({ id }) => id);

describe("a technique", () => {
  test("is copied from a starter, changed and confirmed; the starter itself is not", async () => {
    const starterId = make.techniques["seal-self-etch-two-step"]!;
    const params = { techniqueId: starterId };
    const starter = (await it.practice.assistant.call("getTechnique", { params })).ok;
    expect(starter).toMatchObject({ starter: true, madeFrom: null, confirmed: null });
    expect((await change(starterId)).problem).toBe("technique-is-starter");
    expect((await confirm(starterId)).problem).toBe("technique-is-starter");
    const copy = (await add({ steps: starter.steps, madeFrom: starterId })).ok;
    expect(copy).toMatchObject({ version: 1, starter: false, madeFrom: { id: starterId } });
    expect(copy.steps).toEqual(starter.steps);
    expect((await confirm(copy.id)).ok.confirmed).toMatchObject({ by: "dentist" });
    const { techniques } = (await it.practice.assistant.call("listTechniques")).ok;
    const confirmedAt = (id: string) => techniques.find((one) => one.id === id)?.confirmedAt;
    expect(confirmedAt(copy.id)).toBe(it.clock.now().toISOString());
    expect(confirmedAt(starterId)).toBeNull();
  });

  test("gets a new version by a change; trays keep the one they were planned with", async () => {
    const first = (await add()).ok;
    const tray = await make.tray({ techniqueId: first.id });
    await confirm(first.id);
    const changed = [...steps, { key: "cure", name: "Cure", cureSeconds: 20 }];
    const second = (await change(first.id, { name: "Second", steps: changed })).ok;
    expect(second).toMatchObject({ version: 2, key: first.key, confirmed: null, name: "Second" });
    expect(second.versions.map(({ version }) => version)).toEqual([2, 1]);
    const given = { params: { trayId: tray.id } };
    const kept = (await it.practice.assistant.call("getTray", given)).ok.technique;
    expect(kept).toMatchObject({ id: first.id, version: 1 });
    expect(kept.steps).toHaveLength(1);
    const ids = await listed();
    expect([ids.includes(first.id), ids.includes(second.id)]).toEqual([false, true]);
    expect((await change(first.id)).problem).toBe("product-changed");
    const both = await Promise.all([change(second.id), change(second.id)]);
    expect(both.map(({ status }) => status).sort((a, b) => a - b)).toEqual([201, 409]);
  });

  test("that is retired plans no tray any more", async () => {
    const { id } = (await add()).ok;
    const given = { params: { techniqueId: id }, body: {} };
    expect((await it.practice.owner.call("retireTechnique", given)).ok.retired).toBe(true);
    expect(await listed()).not.toContain(id);
    expect((await it.practice.owner.call("retireTechnique", given)).problem).toBe(
      "product-changed",
    );
    expect((await confirm(id)).problem).toBe("product-changed");
    const plan = {
      chartNumber: "C-1",
      teeth: [{ tooth: "16" }],
      techniqueId: id,
      locationId: make.places.operatory,
      appointmentAt: "2026-06-15T09:00:00.000Z",
    };
    expect((await it.practice.assistant.call("planTray", { body: plan })).problem).toBe(
      "not-found",
    );
  });

  test("whose steps contradict themselves is refused, each fault at its place", async () => {
    const range = { thicknessTenthMm: { min: 8, max: 3 } };
    const refused = await add({ steps: [...steps, { ...steps[0]!, ...range }] });
    expect(refused.problem).toBe("invalid-request");
    expect(refused.body).toMatchObject({
      errors: [
        { path: "/body/steps/1/key", message: "key-twice" },
        { path: "/body/steps/1/thicknessTenthMm", message: "range-turned" },
      ],
    });
    for (const wrong of [{ key: "Not So" }, { name: " " }, { cureSeconds: 3601 }]) {
      expect((await add({ steps: [{ ...steps[0]!, ...wrong }] })).problem).toBe("invalid-request");
    }
    expect((await add({ steps: [] })).problem).toBe("invalid-request");
  });

  test("asks of each tooth what its mode, provisional and undercuts need", async () => {
    const when = { modes: ["etch-and-rinse" as const] };
    const etch = { key: "etch", name: "Etch", accepts: ["etchant" as const], when };
    const technique = (await add({ steps: [etch, ...steps] })).ok;
    const missingFor = async (mode: "self-etch" | "etch-and-rinse") => {
      const teeth = [{ tooth: "16", mode }];
      const { check } = await make.tray({ techniqueId: technique.id, teeth });
      return check.findings
        .filter(({ code }) => code === "missing")
        .map((one) => one.subject.stepKey);
    };
    expect(await missingFor("self-etch")).toEqual(["coat"]);
    expect(await missingFor("etch-and-rinse")).toEqual(["etch", "coat"]);
  });
});
