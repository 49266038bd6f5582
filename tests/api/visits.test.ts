/** A visit with several teeth: planned together, each with a record of its own. */
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

const start = (trayId: string) =>
  it.practice.dentist.call("startRecord", { params: { trayId }, body: {} });

describe("a visit of several teeth", () => {
  test("starts a record for each tooth of the visit, each with its mode and surfaces", async () => {
    const set = await make.sealingSet();
    const tray = await make.fullTray(set, {
      teeth: [
        { tooth: "36", surfaces: "dom", mode: "self-etch" },
        { tooth: "37", mode: "selective-enamel-etch" },
      ],
    });
    expect(tray.teeth.map(({ tooth, surfaces }) => [tooth, surfaces])).toEqual([
      ["36", "MOD"],
      ["37", ""],
    ]);
    const { records } = (await start(tray.id)).ok;
    expect(records.map(({ tooth }) => tooth)).toEqual(["36", "37"]);
    const params = { trayId: tray.id };
    const clear = () => it.practice.assistant.call("clearTray", { params, body: {} });
    for (const record of records) {
      const refused = await clear();
      expect(refused.problem).toBe("record-not-complete");
      expect(refused.body).toMatchObject({ recordId: record.id });
      await make.worked(record);
      await make.signed(record.id);
    }
    expect((await clear()).status).toBe(200);
    expect((await start(tray.id)).problem).toBe("tray-not-open");
  });

  test("refuses surfaces that a tooth does not have, and a tooth named twice", async () => {
    const plan = (teeth: BodyOf<"planTray">["teeth"]) =>
      it.practice.assistant.call("planTray", {
        body: {
          chartNumber: make.name("C"),
          teeth,
          techniqueId: make.techniques["bond-restoration"]!,
          locationId: make.places.operatory,
          appointmentAt: "2026-06-15T09:00:00.000Z",
        },
      });
    const wrong = await plan([{ tooth: "16" }, { tooth: "11", surfaces: "MOD" }]);
    expect(wrong.problem).toBe("invalid-request");
    expect(wrong.body).toMatchObject({ errors: [{ path: "/body/teeth/1/surfaces" }] });
    expect((await plan([{ tooth: "16" }, { tooth: "16" }])).problem).toBe("invalid-request");
    expect((await plan([])).problem).toBe("invalid-request");
  });
});
