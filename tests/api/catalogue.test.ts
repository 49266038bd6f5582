/** Products, their identifiers and confirmation; systems; techniques. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { BodyOf } from "#contracts/operations";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, type TestApp } from "../helpers/app.ts";
import { Maker, newGtin } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

const usual = (): BodyOf<"addProduct"> => ({ name: make.name("Product"), kind: "primer" });
const add = (body: BodyOf<"addProduct">) => it.practice.office.call("addProduct", { body });

describe("a product", () => {
  test("is kept with every fact of its instructions for use", async () => {
    const system = await it.practice.office.call("addSystem", { body: { name: make.name("S") } });
    const facts = {
      name: make.name("Whole product"),
      labeler: "Labeler (fictional)",
      kind: "universal-adhesive" as const,
      solvents: ["ethanol" as const, "water" as const],
      strategy: "universal" as const,
      systemId: system.ok.id,
      contents: ["hema" as const, "mdp" as const],
      inUseLife: { count: 3, unit: "month" as const },
      applicationSeconds: 20,
      airDrySeconds: 10,
      cureSeconds: 10,
      radiantExposureJCm2: 16.25,
      warmUpMinutes: 15,
      dropLifeSeconds: 60,
      fillerPercent: 62.5,
      modulusGpa: 7.5,
      excursionLevel: "stop" as const,
      storageMinC: 2,
      storageMaxC: 25.5,
      singleUse: true,
      usesPerContainer: 50,
      ifuVersion: "fictional IFU 2026-01",
    };
    const identifiers = [
      { scheme: "gs1-gtin" as const, value: newGtin(), packLevel: "unit" as const, containers: 1 },
      { scheme: "hibc" as const, value: "A999WP10", packLevel: "box" as const, containers: 4 },
    ];
    const { ok } = await add({ ...facts, identifiers });
    expect(ok).toEqual({
      ...facts,
      id: ok.id,
      version: 1,
      systemName: system.ok.name,
      identifiers,
      confirmed: null,
    });
    const params = { productId: ok.id };
    expect((await it.practice.assistant.call("getProduct", { params })).ok).toEqual(ok);
  });

  test("of which only name and kind are known has no facts made up for it", async () => {
    const { ok } = await add(usual());
    expect(ok).toMatchObject({ solvents: null, strategy: null, systemId: null, inUseLife: null });
    expect(ok).toMatchObject({ airDrySeconds: null, cureSeconds: null, radiantExposureJCm2: null });
    expect(ok).toMatchObject({ contents: [], identifiers: [], singleUse: false, confirmed: null });
  });

  test("is found by kind and by a part of its name or labeler", async () => {
    const name = make.name("Quite Unmistakable");
    const labeler = make.name("Rare Labeler");
    const { id } = (await add({ ...usual(), name, labeler, kind: "etchant" })).ok;
    for (const query of [
      { kind: "etchant" as const, q: name },
      { q: name.toUpperCase().slice(3) },
      { q: labeler },
    ]) {
      const { products } = (await it.practice.dentist.call("listProducts", { query })).ok;
      expect(products.map((each) => each.id)).toEqual([id]);
    }
    const elsewhere = { query: { kind: "primer" as const, q: name } };
    expect((await it.practice.dentist.call("listProducts", elsewhere)).ok.products).toEqual([]);
    const wildcard = { query: { q: "%" } };
    expect((await it.practice.dentist.call("listProducts", wildcard)).ok.products).toEqual([]);
  });

  test("that does not exist is not found", async () => {
    const params = { productId: newId() };
    const { dentist, office } = it.practice;
    expect((await office.call("getProduct", { params })).problem).toBe("not-found");
    const change = { params, body: { ...usual(), version: 1 } };
    expect((await office.call("changeProduct", change)).problem).toBe("not-found");
    const confirmation = { params, body: { version: 1, ifuVersion: "1" } };
    expect((await dentist.call("confirmProduct", confirmation)).problem).toBe("not-found");
    const identifier = { params, body: { scheme: "gs1-gtin" as const, value: newGtin() } };
    expect((await office.call("addIdentifier", identifier)).problem).toBe("not-found");
  });

  test("takes no name of another, and no system that does not exist", async () => {
    const { ok } = await add(usual());
    expect((await add({ ...usual(), name: ok.name })).problem).toBe("name-taken");
    expect((await add({ ...usual(), systemId: newId() })).problem).toBe("not-found");
  });

  test.each([
    ["a GTIN with a wrong check digit", { value: "09520000001011" }],
    ["a GTIN of 13 digits", { value: "9520000001018" }],
    ["a GTIN with a letter", { value: "0952000000101A" }],
  ])("takes no %s", async (_what, { value }) => {
    const answer = await add({ ...usual(), identifiers: [{ scheme: "gs1-gtin", value }] });
    expect(answer.problem).toBe("invalid-request");
    expect(answer.body).toMatchObject({ errors: [{ path: "/body/identifiers" }] });
  });

  test.each([
    ["a lower storage limit above the upper one", { storageMinC: 26, storageMaxC: 25 }],
    ["a radiant exposure that rounds to nothing", { radiantExposureJCm2: 0.001 }],
    ["an in-use life of no days", { inUseLife: { count: 0, unit: "day" as const } }],
    ["half a second", { airDrySeconds: 0.5 }],
    ["an unknown solvent", { solvents: ["benzene" as "water"] }],
  ])("takes no %s", async (_what, wrong) => {
    expect((await add({ ...usual(), ...wrong })).problem).toBe("invalid-request");
  });
});

describe("a device identifier", () => {
  test("belongs to one product", async () => {
    const first = await make.product("primer");
    const identifiers = [{ scheme: "gs1-gtin" as const, value: first.gtin }];
    expect((await add({ ...usual(), identifiers })).problem).toBe("identifier-taken");
    const second = await make.product("primer");
    const again = { params: { productId: second.id }, body: identifiers[0]! };
    expect((await it.practice.office.call("addIdentifier", again)).problem).toBe(
      "identifier-taken",
    );
  });

  test("of another packaging level is added to its product, which stays confirmed", async () => {
    const product = await make.product("primer");
    const body = {
      scheme: "gs1-gtin" as const,
      value: newGtin(),
      packLevel: "box" as const,
      containers: 6,
    };
    const given = { params: { productId: product.id }, body };
    const { ok } = await it.practice.assistant.call("addIdentifier", given);
    expect(ok.identifiers).toContainEqual(body);
    expect(ok.identifiers).toHaveLength(2);
    expect(ok.confirmed).not.toBeNull();
  });
});

describe("an entry", () => {
  test("that a dentist confirms says by whom and when, until it is changed", async () => {
    const product = await make.product("primer", { confirmed: false });
    expect(product.confirmed).toBeNull();
    const params = { productId: product.id };
    const confirmation = { params, body: { version: 1, ifuVersion: "IFU 7" } };
    const { ok } = await it.practice.dentist.call("confirmProduct", confirmation);
    expect(ok.confirmed).toEqual({ by: "dentist", at: "2026-06-15T08:00:00.000Z" });
    expect(ok).toMatchObject({ version: 1, ifuVersion: "IFU 7" });

    const change = { params, body: { ...usual(), airDrySeconds: 15, version: 1 } };
    const changed = (await it.practice.office.call("changeProduct", change)).ok;
    expect(changed).toMatchObject({ version: 2, airDrySeconds: 15, confirmed: null });
  });

  test("that was changed meanwhile is neither changed nor confirmed from an old version", async () => {
    const { id } = await make.product("primer");
    const params = { productId: id };
    const change = () => ({ params, body: { ...usual(), version: 1 } });
    const answers = await Promise.all(
      [1, 2, 3, 4].map(() => it.practice.office.call("changeProduct", change())),
    );
    expect(answers.filter(({ status }) => status === 200)).toHaveLength(1);
    for (const lost of answers.filter(({ status }) => status !== 200)) {
      expect(lost.problem).toBe("product-changed");
    }
    const confirmation = { params, body: { version: 1, ifuVersion: "1" } };
    const late = await it.practice.dentist.call("confirmProduct", confirmation);
    expect(late.problem).toBe("product-changed");
  });

  test("takes no name of another when it is changed", async () => {
    const [first, second] = [await make.product("primer"), await make.product("primer")];
    const body = { ...usual(), name: first.name, version: 1 };
    const given = { params: { productId: second.id }, body };
    expect((await it.practice.office.call("changeProduct", given)).problem).toBe("name-taken");
    const system = { params: given.params, body: { ...usual(), systemId: newId(), version: 1 } };
    expect((await it.practice.office.call("changeProduct", system)).problem).toBe("not-found");
  });
});

describe("systems and techniques", () => {
  test("a system has a name of its own and is listed", async () => {
    const body = { name: make.name("System") };
    const { ok } = await it.practice.assistant.call("addSystem", { body });
    expect((await it.practice.assistant.call("listSystems")).ok.systems).toContainEqual(ok);
    expect((await it.practice.office.call("addSystem", { body })).problem).toBe("name-taken");
  });

  test("the starter techniques are there, marked as such, with their steps in order", async () => {
    const { techniques } = (await it.practice.assistant.call("listTechniques")).ok;
    const sealing = techniques.find(({ key }) => key === "seal-self-etch-two-step")!;
    expect(sealing).toMatchObject({ visit: "sealing", version: 1, starter: true });
    expect(sealing.steps.map(({ key }) => key)).toEqual([
      "isolate",
      "prime",
      "bond",
      "coat",
      "barrier",
      "separate",
      "provisional",
    ]);
  });
});
