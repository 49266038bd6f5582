/** What was on paper while the system was away; and what becomes of a tray afterwards. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { BodyOf, QueryOf } from "#contracts/operations";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, type TestApp } from "../helpers/app.ts";
import { asOwner } from "../helpers/database.ts";
import { Maker } from "../helpers/make.ts";
import { renderPdf } from "../helpers/read-back.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

const now = "2026-06-15T08:00:00.000Z";
const happenedAt = "2026-06-13T10:00:00.000Z";
const start = async (trayId: string, told: Partial<BodyOf<"startRecord">> = {}) =>
  it.practice.dentist.call("startRecord", {
    params: { trayId },
    body: { ...(await make.starting(trayId)).body, ...told },
  });

describe("a record told later", () => {
  test("keeps when it happened and when it was told", async () => {
    const { trayId } = await make.smallTray();
    const { records } = (await start(trayId, { happenedAt })).ok;
    const [record] = records;
    expect(record).toMatchObject({ startedAt: happenedAt, toldAt: now });
    const params = { recordId: record!.id };
    const at = "2026-06-13T10:04:00.000Z";
    const body = { kind: "step-started" as const, stepKey: "cement", occurredAt: at };
    const { ok } = await it.practice.dentist.call("addRecordEvent", { params, body });
    expect(ok.materials).toMatchObject([{ usedAt: at }]);
    expect(ok.events[0]).toMatchObject({ occurredAt: at, recordedAt: now });
    const { containerId } = ok.materials[0]!;
    const given = { params: { containerId: containerId! } };
    const { container } = (await it.practice.office.call("getContainer", given)).ok;
    // Opened by its first use, on the day of that.
    expect(container.openedOn).toBe("2026-06-13");
  });

  test("happened in the past, within what people remember", async () => {
    const { trayId } = await make.smallTray();
    for (const wrong of ["2026-06-15T08:00:01.000Z", "2026-05-01T08:00:00.000Z"]) {
      const refused = await start(trayId, { happenedAt: wrong });
      expect(refused.problem).toBe("invalid-request");
      expect(refused.body).toMatchObject({ errors: [{ path: "/body/happenedAt" }] });
    }
  });

  test("is checked by what was in date then", async () => {
    const product = await make.usualProduct("bonding-cement");
    const { first } = await make.received(product, { useBy: "2026-06-15" });
    const { first: second } = await make.received(product, { useBy: "2026-06-15" });
    // The next day in Berlin; sessions that are used meanwhile do not end.
    for (const at of ["2026-06-15T17:00:00.000Z", "2026-06-15T22:30:00.000Z"]) {
      it.clock.set(at);
      for (const who of ["office", "assistant", "dentist"] as const) {
        expect((await it.practice[who].call("getSession")).status).toBe(200);
      }
    }
    const { id } = await make.tray({ technique: "bond-restoration" });
    await make.scanned(id, first.code);
    expect((await start(id)).problem).toBe("verdict-stops");
    const { records } = (await start(id, { happenedAt: "2026-06-15T12:00:00.000Z" })).ok;
    expect(records[0]?.startCheck.verdict).not.toBe("stop");
    // So are its steps, and a container that took over.
    const params = { recordId: records[0]!.id };
    const at = "2026-06-15T12:05:00.000Z";
    const body = { kind: "step-started" as const, stepKey: "cement", occurredAt: at };
    const begun = await it.practice.dentist.call("addRecordEvent", { params, body });
    expect(begun.ok.materials).toMatchObject([{ containerId: first.id, usedAt: at }]);
    expect(begun.ok.check?.mayStart).toBe(true);
    const later = "2026-06-15T12:06:00.000Z";
    const swap = { stepKey: "cement", barcodes: [second.code], replaces: first.id };
    const swapped = await it.practice.dentist.call("swapContainer", {
      params,
      body: { ...swap, occurredAt: later },
    });
    expect(swapped.ok.materials.at(-1)).toMatchObject({ containerId: second.id, usedAt: later });
    it.clock.set(now);
  });

  test("has no step before it began, nor in the future", async () => {
    const record = await make.started((await make.smallTray()).trayId);
    const params = { recordId: record.id };
    for (const occurredAt of ["2026-06-15T07:54:59.000Z", "2026-06-15T08:05:01.000Z"]) {
      const body = { kind: "note" as const, text: "x", occurredAt };
      const refused = await it.practice.dentist.call("addRecordEvent", { params, body });
      expect(refused.problem).toBe("invalid-request");
      const swap = { stepKey: "cement", barcodes: ["anything"], occurredAt };
      const swapped = await it.practice.dentist.call("swapContainer", { params, body: swap });
      expect(swapped.problem).toBe("invalid-request");
    }
    // Nor by going round the server.
    const text = `insert into record_event (practice_id, record_id, sequence, kind, occurred_at,
        recorded_at, person_id)
      select practice_id, id, 1, 'note', now() + interval '6 minutes', now(), started_by
      from record where id = $1`;
    await expect(asOwner(it.database, text, [record.id])).rejects.toMatchObject({
      constraint: "record_event_not_before_told",
    });
  });
});

describe("the sheet for downtime", () => {
  const pagesOf = async (query: QueryOf<"getDowntimeSheet">) => {
    const { ok } = await it.practice.assistant.call("getDowntimeSheet", { query });
    const bytes = new Uint8Array(await (ok as unknown as Blob).arrayBuffer());
    const pages = await renderPdf(bytes, 40);
    return pages.map(({ text, ...page }) => ({ ...page, text: text.replace(/\s+/g, " ") }));
  };
  const on = "2026-05-04";
  const appointmentAt = "2026-05-04T08:30:00.000Z";

  test("has a page for each visit of the day with what is set out, then blank ones", async () => {
    const product = await make.usualProduct("universal-adhesive");
    const { first, lot } = await make.received(product);
    const { id, chartNumber } = await make.tray({
      technique: "seal-universal",
      appointmentAt,
      teeth: [
        { tooth: "16", mode: "etch-and-rinse", surfaces: "MOD" },
        { tooth: "26", mode: "self-etch" },
      ],
    });
    await make.scanned(id, first.code);
    const pages = await pagesOf({ on, language: "en" });
    expect(pages).toHaveLength(3);
    for (const { widthMm, heightMm, text } of pages) {
      expect([widthMm, heightMm].map(Math.round)).toEqual([210, 297]);
      expect(text).toMatch(/^Downtime sheet, 4 May 2026/);
      for (const box of ["Container code", "Lot", "Use by", "From", "To", "Light, mode"]) {
        expect(text).toContain(box);
      }
      expect(text).toMatch(/Deviations.*Dentist.*Date, signature/);
      expect(text).toContain("does not replace");
    }
    const [visit, ...blank] = pages.map(({ text }) => text);
    expect(visit).toContain(chartNumber);
    expect(visit).toContain("16 MOD etch-and-rinse; 26 self-etch");
    expect(visit).toContain("10:30, Operatory 1");
    // Etched is the one tooth alone.
    expect(visit).toMatch(/Etch enamel and dentin · 16 /);
    const shown = `${first.code.slice(0, 3)}-${first.code.slice(3)}`;
    expect(visit).toContain(`Set out: ${product.name} ${shown}, ${lot}`);
    for (const text of blank) expect(text).not.toContain("Set out:");
  });

  test("is in German as well, and as many pages as are asked for", async () => {
    const german = await pagesOf({ on: "2026-05-05", language: "de", blanks: 4 });
    expect(german).toHaveLength(4);
    expect(german[0]?.text).toMatch(/^Ausfallblatt, 5. Mai 2026.*Code des Behälters.*Charge/);
    // Never none at all.
    expect(await pagesOf({ on: "2026-05-05", blanks: 0 })).toHaveLength(1);
  });
});

describe("a tray that is put away", () => {
  const clear = (trayId: string, body: BodyOf<"clearTray">) =>
    it.practice.assistant.call("clearTray", { params: { trayId }, body });
  const placeOf = async (containerId: string) => {
    const given = { params: { containerId } };
    return (await it.practice.office.call("getContainer", given)).ok.container.location.id;
  };

  test("knows where its containers stood before", async () => {
    const { trayId, container } = await make.smallTray();
    const given = { params: { trayId } };
    const { containers } = (await it.practice.assistant.call("getTrayReturns", given)).ok;
    expect(containers).toMatchObject([
      { containerId: container.id, cameFrom: { id: make.places.store } },
    ]);
  });

  test("sends each back, books it as used up, or throws it away with a reason", async () => {
    const returned = await make.smallTray();
    await clear(returned.trayId, {
      returned: [{ containerId: returned.container.id, locationId: make.places.refrigerator }],
    });
    expect(await placeOf(returned.container.id)).toBe(make.places.refrigerator);
    const spoilt = await make.smallTray();
    await clear(spoilt.trayId, {
      discarded: [{ containerId: spoilt.container.id, note: "dropped" }],
    });
    expect(await placeOf(spoilt.container.id)).toBe(make.places.discarded);
    const stays = await make.smallTray();
    await clear(stays.trayId, {});
    expect(await placeOf(stays.container.id)).toBe(make.places.operatory);
  });

  test("says of each one thing, and of its own alone", async () => {
    const { trayId, container } = await make.smallTray();
    const id = container.id;
    const both = await clear(trayId, {
      usedUp: [id],
      discarded: [{ containerId: id, note: "dropped" }],
    });
    expect(both.problem).toBe("invalid-request");
    const other = await make.smallTray();
    const foreign = { containerId: other.container.id, locationId: make.places.store };
    expect((await clear(trayId, { returned: [foreign] })).problem).toBe("not-on-tray");
    const nowhere = { containerId: id, locationId: newId() };
    expect((await clear(trayId, { returned: [nowhere] })).problem).toBe("not-found");
    const outside = { containerId: id, locationId: make.places.lost };
    expect((await clear(trayId, { returned: [outside] })).problem).toBe("not-found");
    expect(await placeOf(id)).toBe(make.places.operatory);
  });

  test("leaves alone what is in quarantine, however it was meant", async () => {
    const { trayId, container } = await make.smallTray();
    const body = {
      containerId: container.id,
      fromLocationId: make.places.operatory,
      toLocationId: make.places.quarantine,
      quantity: 1,
      reason: "quarantined" as const,
    };
    expect((await it.practice.assistant.call("move", { body })).status).toBe(201);
    const given = { params: { trayId } };
    const { containers } = (await it.practice.assistant.call("getTrayReturns", given)).ok;
    expect(containers[0]).toMatchObject({ onShelf: false, place: { name: "Quarantine" } });
    const returned = [{ containerId: container.id, locationId: make.places.store }];
    const refused = await clear(trayId, { returned });
    expect(refused.problem).toBe("container-not-there");
    expect(refused.text).toContain("Quarantine");
    expect((await clear(trayId, {})).status).toBe(200);
    expect(await placeOf(container.id)).toBe(make.places.quarantine);
  });

  test("says which other tray waits for a container; there the stop goes with it", async () => {
    const { trayId, container } = await make.smallTray();
    const next = await make.tray({
      technique: "bond-restoration",
      chartNumber: "C-NEXT",
      teeth: [{ tooth: "36" }, { tooth: "37" }],
    });
    const { check } = await make.scanned(next.id, container.code);
    const { chartNumber } = (await it.practice.office.call("getTray", { params: { trayId } })).ok;
    expect(check.findings.find(({ code }) => code === "not-available")).toMatchObject({
      level: "stop",
      numbers: { reason: "other-tray", tray: `${chartNumber} / 16` },
    });
    const given = { params: { trayId } };
    const { containers } = (await it.practice.assistant.call("getTrayReturns", given)).ok;
    expect(containers[0]?.otherTray).toMatchObject({ id: next.id, name: "C-NEXT / 36 37" });
    await clear(trayId, {});
    const after = await it.practice.office.call("getTray", { params: { trayId: next.id } });
    expect(after.ok.check.findings.map(({ code }) => code)).not.toContain("not-available");
    // Used up at the first visit, it is no longer there for the second.
    const third = await make.tray({ technique: "bond-restoration" });
    await make.scanned(third.id, container.code);
    await clear(next.id, { usedUp: [container.id] });
    const gone = await it.practice.office.call("getTray", { params: { trayId: third.id } });
    expect(gone.ok.check.findings.find(({ code }) => code === "not-available")).toMatchObject({
      numbers: { reason: "empty" },
    });
  });
});
