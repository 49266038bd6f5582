/** What is this label, and what a delivery becomes: containers, or a stop at the door. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { BodyOf } from "#contracts/operations";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, type TestApp } from "../helpers/app.ts";
import { asOwner } from "../helpers/database.ts";
import { gs1Label, Maker, newGtin, type MadeProduct } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
let flow: MadeProduct;
let cement: MadeProduct;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
  const unit = { packLevel: "unit", containers: 1 } as const;
  const box = {
    scheme: "gs1-gtin",
    value: "19520000001077",
    packLevel: "box",
    containers: 4,
  } as const;
  flow = await make.product("flowable", {
    identifiers: [{ scheme: "gs1-gtin", value: "09520000001070", ...unit }, box],
  });
  cement = await make.product("bonding-cement", {
    identifiers: [{ scheme: "hibc", value: "A999HC10", ...unit }],
  });
});
afterAll(() => it.close());

const receive = (body: Partial<BodyOf<"receive">> & { barcodes: string[] }) =>
  it.practice.assistant.call("receive", {
    params: { deliveryId: make.deliveryId },
    body: { locationId: make.places.store, ...body },
  });
const readScan = async (...barcodes: string[]) =>
  (await it.practice.assistant.call("readScan", { body: { barcodes } })).ok;
const gs = "\u001d";

/** One label each, as a scanner sends it; check characters by hand or bwip-js. */
const labels: [string, string[], "gs1-gtin" | "hibc", object][] = [
  [
    "a GS1 DataMatrix with a serial number behind the separator",
    [`]d201095200000010701728033110DF-118O${gs}21S-1`],
    "gs1-gtin",
    {
      scheme: "gs1",
      lot: "DF-118O",
      serial: "S-1",
      useBy: { date: "2028-03-31", precision: "day" },
    },
  ],
  [
    "a GS1 DataMatrix whose date has no day",
    ["]d201095200000010701728040010DF-MONTH"],
    "gs1-gtin",
    { scheme: "gs1", lot: "DF-MONTH", useBy: { date: "2028-04-30", precision: "month" } },
  ],
  [
    "a GS1-128 from a scanner that names its symbology",
    ["]C101195200000010771728033110DF-1180"],
    "gs1-gtin",
    { scheme: "gs1", identifier: { scheme: "gs1-gtin", value: "19520000001077" }, lot: "DF-1180" },
  ],
  [
    "a GS1 Digital Link",
    ["https://id.example.org/01/09520000001070/10/DF-LINK?17=280331"],
    "gs1-gtin",
    { scheme: "gs1-digital-link", lot: "DF-LINK", useBy: { date: "2028-03-31", precision: "day" } },
  ],
  ["an EAN-13", ["]E09520000001070"], "gs1-gtin", { scheme: "gtin", lot: null, useBy: null }],
  [
    "a HIBC pair, primary and secondary",
    ["+A999HC10M", "+$$3280331HC0088MY"],
    "hibc",
    { scheme: "hibc", lot: "HC0088", useBy: { date: "2028-03-31", precision: "day" } },
  ],
];

describe("a label", () => {
  test.each(labels)("that is %s is read and names its product", async (_w, scans, scheme, told) => {
    const { reading, product } = await readScan(...scans);
    expect(reading).toMatchObject({ ok: true, error: null, ...told });
    expect(reading.identifier?.scheme).toBe(scheme);
    expect(product?.id).toBe(scheme === "hibc" ? cement.id : flow.id);
  });

  test("of a container received offers it, open before sealed", async () => {
    const product = await make.usualProduct("primer");
    const { label, containers } = await make.received(product, { quantity: 3 });
    const opened = containers[2]!;
    const params = { containerId: opened.id };
    await it.practice.assistant.call("openContainer", { params, body: {} });
    const offered = (await readScan(label)).containers.map(({ id }) => id);
    expect(offered[0]).toBe(opened.id);
    expect(new Set(offered)).toEqual(new Set(containers.map(({ id }) => id)));
  });

  test("of the practice's own, a container's code, names that container", async () => {
    const { first } = await make.received(await make.usualProduct("primer"));
    const spoken = `${first.code.slice(0, 3)}-${first.code.slice(3)}`.toLowerCase();
    for (const text of [first.code, spoken]) {
      const { reading, product, containers } = await readScan(text);
      expect(reading).toMatchObject({ ok: true, scheme: "container" });
      expect(product?.id).toBe((await make.usualProduct("primer")).id);
      expect(containers.map(({ id }) => id)).toEqual([first.id]);
    }
  });

  test("that cannot be read says where, and changes nothing", async () => {
    const { reading, product, containers } = await readScan("]d20109520000001071");
    expect(reading.ok).toBe(false);
    expect(reading.error).toEqual({ kind: "invalid_check_digit", at: 18, length: 1 });
    expect([product, containers]).toEqual([null, []]);
  });

  test("of an unknown product is read all the same", async () => {
    const { reading, product } = await readScan(`]d201${newGtin()}10X1`);
    expect(reading).toMatchObject({ ok: true, lot: "X1" });
    expect(product).toBeNull();
  });
});

describe("a delivery", () => {
  test("lists its lines, the newest first, with the containers of each", async () => {
    const body = { supplier: "Supplier (fictional)", note: "two parcels" };
    const opened = (await it.practice.office.call("openDelivery", { body })).ok;
    expect(opened).toMatchObject({ ...body, receivedBy: "office", lines: [] });
    const params = { deliveryId: opened.id };
    const line = async (lot: string) => {
      const barcodes = [gs1Label({ gtin: flow.identifiers[0]!.value, lot, useBy: "2028-03-31" })];
      const given = { params, body: { barcodes, locationId: make.places.store } };
      return (await it.practice.assistant.call("receive", given)).ok;
    };
    const first = await line(make.name("L"));
    it.clock.set("2026-06-15T08:01:00.000Z");
    const second = await line(make.name("L"));
    const { ok } = await it.practice.dentist.call("getDelivery", { params });
    expect(ok.lines).toEqual([second, first]);
    const { deliveries } = (await it.practice.dentist.call("listDeliveries")).ok;
    expect(deliveries.find(({ id }) => id === opened.id)).toMatchObject({ ...body, lines: 2 });
    const missing = { params: { deliveryId: newId() } };
    expect((await it.practice.dentist.call("getDelivery", missing)).problem).toBe("not-found");
  });

  test("of two boxes of four becomes eight containers, each with a code of its own", async () => {
    const label = `]d201195200000010771728033110${make.name("BOX")}`;
    const { ok } = await receive({ barcodes: [label], quantity: 2 });
    expect(ok.containers).toHaveLength(8);
    const codes = ok.containers.map(({ code }) => code);
    expect(new Set(codes).size).toBe(8);
    for (const code of codes) expect(code).toMatch(/^C[1-9A-HJKMNP-TV-Z]{6}$/);
    const params = { containerId: ok.containers[7]!.id };
    const { container, movements } = (await it.practice.office.call("getContainer", { params })).ok;
    expect(container).toMatchObject({ state: "sealed", lotId: ok.lotId, openedOn: null });
    expect(container.location.id).toBe(make.places.store);
    expect(movements).toEqual([
      expect.objectContaining({ from: "Supplier", to: "Store", quantity: 1, reason: "received" }),
    ]);
    const query = { lot: ok.lotId };
    const { balances } = (await it.practice.office.call("listBalances", { query })).ok;
    expect(balances.map(({ location, quantity }) => [location.kind, quantity])).toEqual([
      ["store", 8],
      ["supplier", -8],
    ]);
  });

  test("keeps what the scanner sent, byte for byte", async () => {
    const barcode = `]d201095200000010701728033110RAW${gs}21 raw-1`.replace("21 ", "21");
    const { ok } = await receive({ barcodes: [barcode] });
    const [row] = await asOwner<{ barcode: string }>(
      it.database,
      "select barcode from delivery_line where id = $1",
      [ok.id],
    );
    expect(row?.barcode).toBe(barcode);
    expect(ok.serial).toBe("raw-1");
  });

  test("takes lot and date that are typed where the code has none", async () => {
    const typed = { lot: make.name("typed"), useBy: "2028-02-29" };
    const { ok } = await receive({ barcodes: ["]E09520000001070"], ...typed });
    expect(ok).toMatchObject({ lot: typed.lot, useBy: { date: "2028-02-29", precision: "day" } });
  });

  test("of a lot that is known takes its date from there", async () => {
    const { lot } = await make.received({ gtin: "09520000001070" }, { useBy: "2028-07-31" });
    const { ok } = await receive({ barcodes: ["]E09520000001070"], lot });
    expect(ok.useBy).toEqual({ date: "2028-07-31", precision: "day" });
  });

  test("without a use-by date is taken only where that is said", async () => {
    const lot = make.name("none");
    const refused = await receive({ barcodes: ["]E09520000001070"], lot });
    expect(refused.problem).toBe("label-incomplete");
    expect(refused.body).toMatchObject({ lacks: ["useBy"] });
    const { ok } = await receive({ barcodes: ["]E09520000001070"], lot, acceptWithoutUseBy: true });
    expect(ok).toMatchObject({ useBy: null, shortDated: false });
  });

  test.each([
    ["2026-07-14", true],
    ["2026-07-15", false],
  ])("that ends on %s is short-dated on 15 June: %s", async (useBy, shortDated) => {
    const lot = make.name("short");
    const { ok } = await receive({ barcodes: ["]E09520000001070"], lot, useBy });
    expect(ok.shortDated).toBe(shortDated);
  });
});

describe("at the door is stopped", () => {
  const good = () => gs1Label({ gtin: "09520000001070", lot: make.name("L"), useBy: "2028-03-31" });

  test("a delivery or a place that does not exist, or is outside the practice", async () => {
    const body = { barcodes: [good()], locationId: make.places.store };
    const missing = { params: { deliveryId: newId() }, body };
    expect((await it.practice.assistant.call("receive", missing)).problem).toBe("not-found");
    for (const locationId of [newId(), make.places.supplier]) {
      expect((await receive({ barcodes: [good()], locationId })).problem).toBe("not-found");
    }
  });

  test("what cannot be read, and a code of our own", async () => {
    const { first } = await make.received(await make.usualProduct("primer"));
    for (const barcode of ["]d20109520000001071", "whatever", first.code]) {
      const answer = await receive({ barcodes: [barcode] });
      expect(answer.problem).toBe("label-unreadable");
      expect(answer.body).toMatchObject({ reading: { lot: null } });
    }
  });

  test("a label that names no product, or no lot", async () => {
    const secondary = await receive({ barcodes: ["+$$3280331HC0088MY"] });
    expect(secondary.problem).toBe("label-incomplete");
    expect(secondary.body).toMatchObject({ lacks: ["identifier"], reading: { lot: "HC0088" } });
    const bare = await receive({ barcodes: ["]E09520000001070"] });
    expect(bare.problem).toBe("label-incomplete");
    expect(bare.body).toMatchObject({ lacks: ["lot", "useBy"] });
  });

  test("an identifier that is in no catalogue entry", async () => {
    const label = gs1Label({ gtin: newGtin(), lot: "X", useBy: "2028-03-31" });
    const answer = await receive({ barcodes: [label] });
    expect(answer.problem).toBe("unknown-identifier");
    expect(answer.body).toMatchObject({ reading: { lot: "X" } });
  });

  test.each([
    ["2026-06-14", "expired-delivery"],
    ["2026-06-15", undefined],
  ])("a lot that ends on %s, on 15 June: %s", async (useBy, problem) => {
    const label = gs1Label({ gtin: "09520000001070", lot: make.name("E"), useBy });
    const answer = await receive({ barcodes: [label] });
    if (problem === undefined) expect(answer.status).toBe(201);
    else expect(answer.problem).toBe(problem);
  });

  test("a lot under an open withdrawal, until that is closed", async () => {
    const lot = make.name("W");
    const label = gs1Label({ gtin: "09520000001070", lot, useBy: "2028-03-31" });
    const body = { reference: make.name("FSN"), scope: [{ productId: flow.id, lot }] };
    const { id } = (await it.practice.office.call("openWithdrawal", { body })).ok;
    const answer = await receive({ barcodes: [label] });
    expect(answer.problem).toBe("withdrawn-delivery");
    expect(answer.body).toMatchObject({ withdrawalId: id, reference: body.reference });
    expect((await receive({ barcodes: [good()] })).status).toBe(201);
    const closing = { params: { withdrawalId: id }, body: { summary: "ended" } };
    await it.practice.office.call("closeWithdrawal", closing);
    expect((await receive({ barcodes: [label] })).status).toBe(201);
  });

  test("the same lot with another use-by date", async () => {
    const { lot } = await make.received({ gtin: "09520000001070" }, { useBy: "2028-03-31" });
    const other = gs1Label({ gtin: "09520000001070", lot, useBy: "2028-04-30" });
    const answer = await receive({ barcodes: [other] });
    expect(answer.problem).toBe("use-by-conflict");
    expect(answer.body).toMatchObject({ stored: "2028-03-31", label: "2028-04-30" });
  });

  test("a serial number that is registered, but not one of another product", async () => {
    const serial = make.name("S");
    const label = (gtin: string) =>
      gs1Label({ gtin, lot: make.name("L"), useBy: "2028-03-31", serial });
    expect((await receive({ barcodes: [label("09520000001070")] })).ok.serial).toBe(serial);
    const twice = await receive({ barcodes: [label("09520000001070")] });
    expect(twice.problem).toBe("serial-taken");
    const { gtin } = await make.usualProduct("primer");
    expect((await receive({ barcodes: [label(gtin)] })).status).toBe(201);
  });

  test("one serial number for several containers, and a quantity that cannot be meant", async () => {
    const serial = { lot: make.name("L"), useBy: "2028-03-31", serial: make.name("S") };
    for (const [gtin, quantity] of [
      ["09520000001070", 2],
      ["19520000001077", 1],
    ] as const) {
      const answer = await receive({ barcodes: [gs1Label({ gtin, ...serial })], quantity });
      expect(answer.problem).toBe("invalid-request");
      expect(answer.body).toMatchObject({ errors: [{ path: "/body/quantity" }] });
    }
    const pallet = newGtin();
    const body = { scheme: "gs1-gtin" as const, value: pallet, containers: 10_000 };
    await it.practice.office.call("addIdentifier", { params: { productId: flow.id }, body });
    const label = gs1Label({ gtin: pallet, lot: make.name("L"), useBy: "2028-03-31" });
    const answer = await receive({ barcodes: [label], quantity: 1_000 });
    expect(answer.problem).toBe("invalid-request");
    expect(answer.body).toMatchObject({ errors: [{ path: "/body/quantity" }] });
  });

  test("what is typed against the label", async () => {
    const other = { lot: { lot: "another" }, useBy: { useBy: "2028-04-01" } };
    for (const [field, typed] of Object.entries(other)) {
      const answer = await receive({ barcodes: [good()], ...typed });
      expect(answer.problem).toBe("invalid-request");
      expect(answer.body).toMatchObject({ errors: [{ path: `/body/${field}` }] });
    }
  });
});

test("two who receive the same new lot at once make one lot of it", async () => {
  const label = gs1Label({ gtin: "09520000001070", lot: make.name("L"), useBy: "2028-03-31" });
  const lines = await Promise.all(
    Array.from({ length: 8 }, async () => (await receive({ barcodes: [label] })).ok),
  );
  expect(new Set(lines.map(({ lotId }) => lotId)).size).toBe(1);
  const codes = lines.flatMap(({ containers }) => containers.map(({ code }) => code));
  expect(new Set(codes).size).toBe(8);
});
