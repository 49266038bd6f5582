/** What an amendment adds is told as it was at the visit; what it takes back counts no more. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { AnswerOf, BodyOf } from "#contracts/operations";
import { openApp, password, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

type RecordView = AnswerOf<"getRecord">;
type Body = Partial<BodyOf<"amendRecord">>;
const amend = (recordId: string, body: Body) =>
  it.practice.dentist.call("amendRecord", {
    params: { recordId },
    body: { amends: "correction", reason: "Another one was used.", password, ...body },
  });
async function newSigned(): Promise<RecordView> {
  const { trayId } = await make.smallTray();
  const { id } = await make.worked(await make.started(trayId));
  return make.signed(id);
}
/** Told two days later, from paper. */
async function newSigned2DaysAgo(trayId: string): Promise<RecordView> {
  const { body } = await make.starting(trayId);
  const told = { params: { trayId }, body: { ...body, happenedAt: "2026-06-13T08:00:00.000Z" } };
  const { records } = (await it.practice.dentist.call("startRecord", told)).ok;
  return make.signed((await make.worked(records[0]!)).id);
}
const story = async (containerId: string) =>
  (await it.practice.office.call("getContainer", { params: { containerId } })).ok;
const newCement = async () =>
  (await make.received(await make.usualProduct("bonding-cement"))).first;
const used = (containerId: string) => ({ kind: "used" as const, stepKey: "cement", containerId });

describe("what is added", () => {
  test("happened at the visit: not before it, and not later than now", async () => {
    const { id } = await newSigned();
    const one = used((await newCement()).id);
    for (const occurredAt of ["2001-01-01T08:00:00.000Z", "2026-06-15T09:00:00.000Z"]) {
      const refused = await amend(id, { amends: "addition", add: [{ ...one, occurredAt }] });
      expect(refused.problem).toBe("invalid-request");
    }
    const occurredAt = "2026-06-15T08:00:00.000Z";
    const { ok } = await amend(id, { amends: "addition", add: [{ ...one, occurredAt }] });
    expect(ok.materials).toHaveLength(2);
  });

  test("belongs to its step, where no time is told, and a note to now", async () => {
    const { trayId } = await make.smallTray();
    const draft = await make.started(trayId);
    it.clock.set("2026-06-15T08:20:00.000Z");
    await make.worked(draft);
    it.clock.set("2026-06-15T08:30:00.000Z");
    const { id } = await make.signed(draft.id);
    const { ok } = await amend(id, {
      amends: "addition",
      add: [
        { kind: "deviation", stepKey: "cement", what: "saliva" },
        { kind: "deviation", what: "blood" },
        { kind: "note", text: "The patient called: no pain." },
      ],
    });
    it.clock.set("2026-06-15T08:00:00.000Z");
    expect(ok.events.slice(-3).map(({ occurredAt }) => occurredAt.slice(11, 16))).toEqual([
      "08:20",
      "08:00",
      "08:30",
    ]);
  });

  test("opens a container by its first use, on the day of the visit", async () => {
    const { id } = await newSigned2DaysAgo((await make.smallTray()).trayId);
    const sealed = await newCement();
    const one = { ...used(sealed.id), occurredAt: "2026-06-13T08:10:00.000Z" };
    expect((await amend(id, { amends: "addition", add: [one] })).status).toBe(201);
    expect((await story(sealed.id)).container).toMatchObject({
      state: "open",
      openedOn: "2026-06-13",
    });
  });

  test("as a cure counts the light's readings of that time, and what was really used", async () => {
    const body = { name: make.name("Light"), modes: [{ name: "Standard" }] };
    const { id: lightId } = (await it.practice.office.call("addLight", { body })).ok;
    const reading = (irradianceMwCm2: number, readAt: string) =>
      it.practice.assistant.call("addLightReading", {
        params: { lightId },
        body: { mode: "Standard", irradianceMwCm2, readAt },
      });
    await reading(1000, "2026-06-01T08:00:00.000Z");
    await reading(500, "2026-06-15T07:00:00.000Z");
    const record = await newSigned2DaysAgo((await make.fullTray(await make.sealingSet())).id);
    const strong = await make.product("flowable", { radiantExposureJCm2: 24 });
    const { first } = await make.received(strong);
    const coat = record.materials.find(({ stepKey }) => stepKey === "coat")!;
    const { ok } = await amend(record.id, {
      leaveOut: { materials: [coat.id] },
      add: [
        { ...used(first.id), stepKey: "coat" },
        {
          kind: "cure",
          stepKey: "coat",
          seconds: 20,
          lightId,
          occurredAt: "2026-06-13T08:10:00.000Z",
        },
      ],
    });
    // 1000 mW/cm2 in 20 s are 20 J/cm2: arithmetic.
    expect(ok.events.at(-1)?.facts).toMatchObject({
      irradianceMwCm2: 1000,
      givenJCm2: 20,
      neededJCm2: 24,
    });
  });
});

describe("what is taken back", () => {
  test("was not used: neither by the container's story nor for another patient", async () => {
    const product = await make.product("bonding-cement", { singleUse: true });
    const { first } = await make.received(product);
    const tray = await make.tray({ technique: "bond-restoration" });
    await make.scanned(tray.id, first.code);
    const record = await make.worked(await make.started(tray.id));
    const signed = await make.signed(record.id);
    const clear = { params: { trayId: tray.id }, body: {} };
    expect((await it.practice.assistant.call("clearTray", clear)).status).toBe(200);
    const usesOf = async () => (await story(first.id)).uses.map(({ recordId }) => recordId);
    const reusedBy = async () => {
      const other = await make.tray({ technique: "bond-restoration" });
      const { check, item } = await make.scanned(other.id, first.code);
      const off = { params: { trayId: other.id, itemId: item.id } };
      await it.practice.assistant.call("removeFromTray", off);
      return check.findings.map(({ code }) => code);
    };
    expect(await usesOf()).toEqual([record.id]);
    expect(await reusedBy()).toContain("single-use-reused");
    const add = [{ kind: "note" as const, text: "The patient called." }];
    const { ok: second } = await amend(signed.id, { amends: "addition", add });
    expect(await usesOf()).toEqual([second.id]);
    await amend(second.id, {
      leaveOut: { materials: [second.materials[0]!.id] },
      add: [used((await newCement()).id)],
    });
    expect(await usesOf()).toEqual([]);
  });

  test("takes along the one entry that told of it", async () => {
    const first = await newSigned();
    const { id: productId } = await make.usualProduct("bonding-cement");
    const unscanned = { kind: "not-scanned" as const, stepKey: "cement", productId };
    const reason = "label torn";
    const { ok } = await amend(first.id, {
      amends: "addition",
      add: [{ ...unscanned, reason }, { ...unscanned, reason }, used((await newCement()).id)],
    });
    const told = ({ events }: RecordView) =>
      events.map(({ kind }) => kind).filter((kind) => /^(material|not-scanned)$/.test(kind));
    expect(told(ok)).toEqual(["not-scanned", "not-scanned", "material"]);
    const wrong = ok.materials.filter(({ lot }) => lot === null)[0]!.id;
    const { ok: less } = await amend(ok.id, { leaveOut: { materials: [wrong, wrong] } });
    expect(less.materials).toHaveLength(3);
    expect(told(less)).toEqual(["not-scanned", "material"]);
    const noted = less.materials.find(
      ({ containerId }) => containerId !== null && containerId !== first.materials[0]!.containerId,
    )!;
    const { ok: least } = await amend(less.id, { leaveOut: { materials: [noted.id] } });
    expect(told(least)).toEqual(["not-scanned"]);
  });

  test("can be a swap that was told and did not happen", async () => {
    const { trayId, container } = await make.smallTray();
    const { id } = await make.worked(await make.started(trayId));
    const swap = { stepKey: "cement", barcodes: [(await newCement()).code] };
    const given = { params: { recordId: id }, body: { ...swap, replaces: container.id } };
    expect((await it.practice.assistant.call("swapContainer", given)).status).toBe(201);
    const signed = await make.signed(id);
    const event = signed.events.find(({ kind }) => kind === "material")!;
    const material = signed.materials.find(({ containerId }) => containerId !== container.id)!;
    const { ok } = await amend(id, {
      leaveOut: { events: [event.sequence], materials: [material.id] },
    });
    expect(ok.materials).toMatchObject([{ containerId: container.id }]);
    expect(ok.events.map(({ kind }) => kind)).not.toContain("material");
  });
});
