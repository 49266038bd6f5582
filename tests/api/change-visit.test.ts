/** A planned visit is changed, until priming starts. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { BodyOf } from "#contracts/operations";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, type TestApp } from "../helpers/app.ts";
import { asOwner } from "../helpers/database.ts";
import { Maker } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

const bodyOf = (told: Partial<BodyOf<"changeTray">> = {}): BodyOf<"changeTray"> => ({
  teeth: [{ tooth: "26", surfaces: "dom" }, { tooth: "27" }],
  techniqueId: make.techniques["bond-restoration"]!,
  locationId: make.places.operatory,
  appointmentAt: "2026-06-16T09:30:00.000Z",
  bondingOn: null,
  ...told,
});
const change = (trayId: string, told: Partial<BodyOf<"changeTray">> = {}) =>
  it.practice.office.call("changeTray", { params: { trayId }, body: bodyOf(told) });

describe("a planned visit", () => {
  test("gets other teeth, another time and technique; its patient and containers stay", async () => {
    const { trayId, itemId, container } = await make.smallTray();
    const before = (await it.practice.office.call("getTray", { params: { trayId } })).ok;
    const { ok } = await change(trayId, { techniqueId: make.techniques["seal-universal"]! });
    expect(ok).toMatchObject({
      chartNumber: before.chartNumber,
      teeth: [{ tooth: "26", surfaces: "MOD" }, { tooth: "27" }],
      technique: { key: "seal-universal" },
      appointmentAt: "2026-06-16T09:30:00.000Z",
      items: [{ id: itemId, container: { id: container.id } }],
    });
    // A bonding cement belongs to no step of the sealing.
    expect(ok.check.findings.map(({ code }) => code)).toContain("wrong-kind");
  });

  test("takes its containers along to another room", async () => {
    const room = { name: make.name("Room"), kind: "operatory" as const };
    const { id: locationId } = (await it.practice.office.call("addLocation", { body: room })).ok;
    const { trayId, container } = await make.smallTray();
    const { ok } = await change(trayId, { locationId });
    expect(ok.location.id).toBe(locationId);
    const given = { params: { containerId: container.id } };
    const { ok: moved } = await it.practice.office.call("getContainer", given);
    expect(moved.container.location.id).toBe(locationId);
  });

  test("stays as it is once priming has started or the tray is cleared", async () => {
    const { trayId } = await make.smallTray();
    await make.worked(await make.started(trayId));
    expect((await change(trayId)).problem).toBe("tray-not-open");
    const other = await make.smallTray();
    const clearing = { params: { trayId: other.trayId }, body: {} };
    await it.practice.assistant.call("clearTray", clearing);
    expect((await change(other.trayId)).problem).toBe("tray-not-open");
    // Nor by going round the server.
    for (const id of [trayId, other.trayId]) {
      const text = "update tray set appointment_at = now() where id = $1";
      await expect(asOwner(it.database, text, [id])).rejects.toMatchObject({
        constraint: "tray_before_priming",
      });
    }
  });

  test("is changed to what there is", async () => {
    const { id } = await make.tray();
    expect((await change(newId())).problem).toBe("not-found");
    expect((await change(id, { techniqueId: newId() })).problem).toBe("not-found");
    expect((await change(id, { locationId: make.places.store })).problem).toBe("not-found");
    const wrong = await change(id, { teeth: [{ tooth: "11", surfaces: "MOD" }] });
    expect(wrong.problem).toBe("invalid-request");
    expect(wrong.body).toMatchObject({ errors: [{ path: "/body/teeth/0/surfaces" }] });
    const far = await change(id, { appointmentAt: "3000-01-01T00:00:00.000Z" });
    expect(far.problem).toBe("invalid-request");
  });
});
