/** What a tablet's scanner sends for separators, and the profile that is kept of it. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { BodyOf } from "#contracts/operations";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, Person, type TestApp } from "../helpers/app.ts";
import { asOwner } from "../helpers/database.ts";
import { Maker, newGtin } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

type Profile = BodyOf<"saveScannerProfile">["profile"];
const profile: Profile = {
  gsTokens: ["{F8}", "~1"],
  prefix: "\u0002",
  suffix: " ",
  keyboard: "by-position",
  endKey: "none",
  maxGapMs: 45,
  minKeys: 6,
};
const setUpAt = "2026-06-15T07:30:00.000Z";

/** A browser that is registered as a tablet, with the dentist at it. */
async function tablet(name: string): Promise<{ person: Person; id: string }> {
  const person = new Person(it.app, "nobody", newId());
  await person.signIn("office");
  const { id } = (await person.call("registerDevice", { body: { name } })).ok;
  await person.signIn("dentist");
  return { person, id };
}

describe("a label whose separators came as something else", () => {
  /** A lot and then a serial: with the separator lost, the one would run into the other. */
  const label = (gtin: string, separator: string) => `]d201${gtin}1728033110LOT-7${separator}21S9`;

  test("is read with the scanner's own texts, and not without them", async () => {
    const barcodes = [label(newGtin(), "~1")];
    const asked = (gsTokens?: string[]) =>
      it.practice.assistant.call("readScan", { body: { barcodes, ...(gsTokens && { gsTokens }) } });
    const { reading } = (await asked(["~1"])).ok;
    expect(reading).toMatchObject({ ok: true, lot: "LOT-7", serial: "S9" });
    expect(reading.warnings).toEqual(["separator_substituted"]);
    expect((await asked()).ok.reading).toMatchObject({
      ok: false,
      error: { kind: "invalid_character", at: expect.any(Number), length: 1 },
    });
  });

  test("that may be data is data without them", async () => {
    const barcodes = [label(newGtin(), "<GS>")];
    const body = { barcodes };
    const plain = (await it.practice.assistant.call("readScan", { body })).ok.reading;
    expect(plain).toMatchObject({ lot: "LOT-7<GS>21S9", serial: null });
    expect(plain.warnings).toEqual(["separator_suspected"]);
    const told = { body: { barcodes, gsTokens: ["<GS>"] } };
    expect((await it.practice.assistant.call("readScan", told)).ok.reading.lot).toBe("LOT-7");
  });

  test("is received and put on a tray by them, and stored as it came", async () => {
    const product = await make.usualProduct("etchant");
    const sent = label(product.gtin, "{F8}");
    const texts = { barcodes: [sent], gsTokens: ["{F8}"] };
    const received = await it.practice.assistant.call("receive", {
      params: { deliveryId: make.deliveryId },
      body: { ...texts, locationId: make.places.store },
    });
    expect(received.ok).toMatchObject({ lot: "LOT-7", serial: "S9" });
    const { id: trayId } = await make.tray();
    const placed = await it.practice.assistant.call("scanIntoTray", {
      params: { trayId },
      body: texts,
    });
    expect(placed.ok.item).toMatchObject({
      barcode: sent,
      reading: { lot: "LOT-7", serial: "S9" },
      container: { lot: "LOT-7" },
    });
    const { entries } = (await it.practice.office.call("listAudit", { query: { limit: 20 } })).ok;
    const audited = entries.find(({ action }) => action === "placed-on-tray");
    expect(JSON.parse(audited!.change)).toMatchObject(texts);
  });

  test("takes over at a step of a record by them", async () => {
    const { trayId } = await make.smallTray();
    const record = await make.started(trayId);
    const product = await make.usualProduct("bonding-cement");
    const texts = { barcodes: [label(product.gtin, "~1")], gsTokens: ["~1"] };
    const { deliveryId, places } = make;
    const body = { ...texts, locationId: places.store };
    await it.practice.assistant.call("receive", { params: { deliveryId }, body });
    const swapped = await it.practice.assistant.call("swapContainer", {
      params: { recordId: record.id },
      body: { ...texts, stepKey: "cement" },
    });
    const lots = swapped.ok.steps.flatMap(({ containers }) => containers.map(({ lot }) => lot));
    expect(lots).toContain("LOT-7");
  });

  test.each([
    ["five of them", ["a#", "b#", "c#", "d#", "e#"]],
    ["one of nine characters", ["{GS-FNC1}"]],
    ["an empty one", [""]],
    ["one that cannot be stored", ["\u0000"]],
  ])("is refused with %s", async (_what, gsTokens) => {
    const body = { barcodes: ["CK7QW4X"], gsTokens };
    expect((await it.practice.assistant.call("readScan", { body })).problem).toBe(
      "invalid-request",
    );
  });
});

describe("a tablet's scanner", () => {
  test("is kept with the tablet, and shown to whoever takes it over", async () => {
    const { person, id } = await tablet("Operatory 1");
    const before = (await person.call("getScannerProfile")).ok;
    expect(before).toEqual({ device: { id, name: "Operatory 1" }, profile: null, setUpAt: null });
    const saved = await person.call("saveScannerProfile", { body: { profile, setUpAt } });
    expect(saved.ok).toEqual({ device: { id, name: "Operatory 1" }, profile, setUpAt });
    await person.signIn("assistant");
    expect((await person.call("getScannerProfile")).ok).toEqual(saved.ok);
    const { devices } = (await it.practice.office.call("listDevices")).ok;
    expect(devices.find((each) => each.id === id)?.scannerSetUpAt).toBe(setUpAt);
  });

  test("is in the audit trail, since it decides how lots are read", async () => {
    const { person, id } = await tablet("Operatory 2");
    await person.call("saveScannerProfile", { body: { profile, setUpAt: null } });
    const { entries } = (await it.practice.office.call("listAudit", { query: { limit: 5 } })).ok;
    const [entry] = entries.filter(({ subject }) => subject === `device:${id}`);
    expect(entry?.action).toBe("scanner-set-up");
    expect(JSON.parse(entry!.change)).toEqual({ profile, setUpAt: null });
  });

  test("sent again with its key is kept once, and with another content refused", async () => {
    const { person, id } = await tablet("Operatory 6");
    const key = newId();
    const first = await person.call("saveScannerProfile", { body: { profile, setUpAt }, key });
    const second = await person.call("saveScannerProfile", { body: { profile, setUpAt }, key });
    expect(second.ok).toEqual(first.ok);
    const other = { body: { profile: { ...profile, minKeys: 8 }, setUpAt }, key };
    expect((await person.call("saveScannerProfile", other)).problem).toBe("idempotency-key-reused");
    const { entries } = (await it.practice.office.call("listAudit", { query: { limit: 20 } })).ok;
    const ours = entries.filter(
      ({ action, subject }) => action === "scanner-set-up" && subject === `device:${id}`,
    );
    expect(ours).toHaveLength(1);
  });

  test("is not kept for a device that is no tablet, or no longer one", async () => {
    const body = { profile, setUpAt };
    const { assistant } = it.practice;
    const nothing = { device: null, profile: null, setUpAt: null };
    expect((await assistant.call("saveScannerProfile", { body })).problem).toBe("not-found");
    expect((await assistant.call("getScannerProfile")).ok).toEqual(nothing);
    const { person, id } = await tablet("Operatory 3");
    await it.practice.office.call("revokeDevice", { params: { deviceId: id } });
    await person.signIn("dentist");
    expect((await person.call("saveScannerProfile", { body })).problem).toBe("not-found");
  });

  test.each([
    ["an unknown keyboard", { keyboard: "by-ear" }],
    ["an end key of its own", { endKey: "F3" }],
    ["a gap as long as a person's", { maxGapMs: 61 }],
    ["three keys", { minKeys: 3 }],
    ["a prefix of 21 characters", { prefix: "x".repeat(21) }],
    ["something more", { note: "" }],
  ])("with %s is refused", async (_what, wrong) => {
    const { person } = await tablet("Operatory 4");
    const told = { ...profile, ...wrong } as Profile;
    const answer = await person.call("saveScannerProfile", { body: { profile: told, setUpAt } });
    expect(answer.problem).toBe("invalid-request");
  });
});

describe("the database", () => {
  const put = (text: string | null, at: string | null = null) =>
    asOwner(it.database, "update device set scanner_profile = $1, scanner_set_up_at = $2", [
      text,
      at,
    ]);

  test("takes no profile of another form", async () => {
    await tablet("Operatory 5");
    const { suffix: _left, ...lacking } = profile;
    for (const wrong of [
      [],
      "text",
      {},
      lacking,
      { ...profile, gsTokens: "~1" },
      { ...profile, gsTokens: [1] },
      { ...profile, gsTokens: ["a", "b", "c", "d", "e"] },
      { ...profile, keyboard: null },
      { ...profile, maxGapMs: "35" },
      { ...profile, minKeys: 13 },
    ]) {
      await expect(put(JSON.stringify(wrong))).rejects.toThrow(/device_scanner_profile_form/);
    }
    await expect(put(null, setUpAt)).rejects.toThrow(/device_scanner_set_up_of_profile/);
    await put(JSON.stringify(profile), setUpAt);
  });
});
