/**
 * Makes what a test needs by calling the API, as the people of a practice would: products with
 * their labels, received containers, trays, records. All names, lots and numbers are invented;
 * GTINs use the prefix 952, which GS1 keeps for demonstrations.
 */
import { encodeElementString, gtinCheckDigit } from "#labels";
import type { AnswerOf, BodyOf } from "#contracts/operations";
import type { LocationKind, ProductKind } from "#domain";
import { password, type Given, type TestPractice } from "./app.ts";

let made = 0;
const nextNumber = (): number => (made += 1);

/** A GTIN of 14 digits that no other product of this test file has. */
export function newGtin(): string {
  const digits = `0952${String(nextNumber()).padStart(9, "0")}`;
  return `${digits}${gtinCheckDigit(digits)}`;
}

export interface LabelText {
  gtin: string;
  lot: string;
  useBy: string | null;
  serial?: string;
}

/** What a scanner sends for a GS1 DataMatrix: symbology identifier, then the element string. */
export function gs1Label({ gtin, lot, useBy, serial }: LabelText): string {
  const elements = [{ ai: "01", value: gtin }];
  if (useBy !== null) elements.push({ ai: "17", value: useBy.slice(2).replaceAll("-", "") });
  elements.push({ ai: "10", value: lot });
  if (serial !== undefined) elements.push({ ai: "21", value: serial });
  return `]d2${encodeElementString(elements)}`;
}

export type MadeProduct = AnswerOf<"addProduct"> & { gtin: string };
export type MadeContainer = { id: string; code: string };
export type MadeLot = AnswerOf<"receive"> & { label: string; first: MadeContainer };
type ProductFacts = Partial<BodyOf<"addProduct">> & { confirmed?: boolean };

/** The facts by which a product of each kind passes the starter techniques. */
const usualFacts: Partial<Record<ProductKind, ProductFacts>> = {
  primer: { solvents: ["water"], strategy: "self-etch", applicationSeconds: 20, airDrySeconds: 10 },
  adhesive: { solvents: [], strategy: "self-etch", cureSeconds: 10 },
  "universal-adhesive": { solvents: ["ethanol", "water"], strategy: "universal" },
  flowable: { solvents: [], cureSeconds: 20 },
};

/** The kinds that the two-step self-etch sealing asks for, in the order of its steps. */
const sealingKinds = [
  "primer",
  "adhesive",
  "flowable",
  "glycerin-gel",
  "separating-agent",
] as const satisfies readonly ProductKind[];
export type SealingKind = (typeof sealingKinds)[number];
/** One product of each kind of the two-step self-etch sealing, with one received container. */
export type SealingSet = Record<SealingKind, { product: MadeProduct; lot: MadeLot }>;

export class Maker {
  private readonly usual = new Map<ProductKind, Promise<MadeProduct>>();

  private constructor(
    readonly practice: TestPractice,
    readonly places: Record<LocationKind, string>,
    readonly techniques: Record<string, string>,
    readonly deliveryId: string,
    /** Begins every name, lot and chart number that is made. */
    readonly prefix: string,
  ) {}

  static async of(practice: TestPractice, prefix = ""): Promise<Maker> {
    const { office } = practice;
    const { locations } = (await office.call("listLocations")).ok;
    const { techniques } = (await office.call("listTechniques")).ok;
    const delivery = (await office.call("openDelivery", { body: { supplier: prefix } })).ok;
    return new Maker(
      practice,
      Object.fromEntries(locations.map(({ kind, id }) => [kind, id])) as Maker["places"],
      Object.fromEntries(techniques.map(({ key, id }) => [key, id])),
      delivery.id,
      prefix,
    );
  }

  /** A text that nothing else of this test file has. */
  name(what: string): string {
    return `${this.prefix}${what}-${nextNumber()}`;
  }

  /** A confirmed product of a kind, the same one each time. */
  usualProduct(kind: ProductKind): Promise<MadeProduct> {
    const known = this.usual.get(kind) ?? this.product(kind);
    this.usual.set(kind, known);
    return known;
  }

  /** A product with a GTIN; confirmed by the dentist unless told otherwise. */
  async product(kind: ProductKind, facts: ProductFacts = {}): Promise<MadeProduct> {
    const { confirmed = true, ...told } = facts;
    const gtin = newGtin();
    const body = {
      name: this.name(kind),
      kind,
      identifiers: [{ scheme: "gs1-gtin" as const, value: gtin }],
      ...usualFacts[kind],
      ...told,
    };
    const added = (await this.practice.office.call("addProduct", { body })).ok;
    if (!confirmed) return { ...added, gtin };
    const confirmation = {
      params: { productId: added.id },
      body: { version: added.version, ifuVersion: "fictional IFU 1" },
    };
    return { ...(await this.practice.dentist.call("confirmProduct", confirmation)).ok, gtin };
  }

  /** Receives packs of a product: a new lot that ends in 2028, in the store, unless told. */
  async received(
    product: { gtin: string },
    told: Partial<LabelText> & { quantity?: number; locationId?: string } = {},
  ): Promise<MadeLot> {
    const { quantity = 1, locationId = this.places.store, ...label } = told;
    const text = { gtin: product.gtin, lot: this.name("L"), useBy: "2028-03-31", ...label };
    const barcode = gs1Label(text);
    const line = await this.practice.assistant.call("receive", {
      params: { deliveryId: this.deliveryId },
      body: {
        barcodes: [barcode],
        locationId,
        quantity,
        ...(text.useBy === null ? { acceptWithoutUseBy: true } : {}),
      },
    });
    return { ...line.ok, label: barcode, first: line.ok.containers[0]! };
  }

  /** A tray for the two-step self-etch sealing, today, unless told otherwise. */
  async tray(
    told: Partial<BodyOf<"planTray">> & { technique?: string; tooth?: string } = {},
  ): Promise<AnswerOf<"planTray">> {
    const { technique = "seal-self-etch-two-step", tooth = "16", ...plan } = told;
    const body = {
      chartNumber: this.name("C"),
      teeth: [{ tooth }],
      techniqueId: this.techniques[technique]!,
      locationId: this.places.operatory,
      appointmentAt: "2026-06-15T09:00:00.000Z",
      ...plan,
    };
    return (await this.practice.assistant.call("planTray", { body })).ok;
  }

  async scanned(trayId: string, barcode: string): Promise<AnswerOf<"scanIntoTray">> {
    const given = { params: { trayId }, body: { barcodes: [barcode] } };
    return (await this.practice.assistant.call("scanIntoTray", given)).ok;
  }

  /** A tray of the bonding visit with all that it requires: one container of cement. */
  async smallTray(
    told: Parameters<Maker["tray"]>[0] = {},
  ): Promise<{ trayId: string; itemId: string; container: MadeContainer }> {
    const { first } = await this.received(await this.usualProduct("bonding-cement"));
    const { id: trayId } = await this.tray({ technique: "bond-restoration", ...told });
    const { item } = await this.scanned(trayId, first.code);
    return { trayId, itemId: item.id, container: first };
  }

  /** One product of one system for each step of the two-step self-etch sealing, each received. */
  async sealingSet(facts: Partial<Record<SealingKind, ProductFacts>> = {}): Promise<SealingSet> {
    const name = this.name("System");
    const system = (await this.practice.office.call("addSystem", { body: { name } })).ok;
    const set: Partial<SealingSet> = {};
    for (const kind of sealingKinds) {
      const paired = kind === "primer" || kind === "adhesive" ? { systemId: system.id } : {};
      const product = await this.product(kind, { ...paired, ...facts[kind] });
      set[kind] = { product, lot: await this.received(product) };
    }
    return set as SealingSet;
  }

  /** A tray with everything of a set on it. */
  async fullTray(
    set: SealingSet,
    told: Parameters<Maker["tray"]>[0] = {},
  ): Promise<AnswerOf<"getTray">> {
    const { id } = await this.tray(told);
    for (const kind of sealingKinds) await this.scanned(id, set[kind].lot.first.code);
    return (await this.practice.assistant.call("getTray", { params: { trayId: id } })).ok;
  }

  /** What starts priming: with no seal, said so, for a tooth to be bonded of which none waits. */
  async starting(trayId: string): Promise<Given<"startRecord">> {
    const params = { trayId };
    const found = await this.practice.dentist.call("getTraySeals", { params });
    const teeth = found.status === 200 ? found.ok.teeth : [];
    const bare = teeth.filter(({ seals }) => !seals.some(({ waits }) => waits));
    return { params, body: { seals: bare.map(({ tooth }) => ({ tooth, sealId: null })) } };
  }

  /** Priming started on a full tray: the record of its first tooth. */
  async started(trayId: string): Promise<AnswerOf<"getRecord">> {
    const given = await this.starting(trayId);
    return (await this.practice.dentist.call("startRecord", given)).ok.records[0]!;
  }

  /** Every step of a record started and done. */
  async worked(record: AnswerOf<"getRecord">): Promise<AnswerOf<"getRecord">> {
    const params = { recordId: record.id };
    let last: AnswerOf<"getRecord"> = record;
    for (const { key: stepKey } of record.steps) {
      for (const kind of ["step-started", "step-done"] as const) {
        const given = { params, body: { kind, stepKey } };
        last = (await this.practice.assistant.call("addRecordEvent", given)).ok;
      }
    }
    return last;
  }

  async signed(recordId: string): Promise<AnswerOf<"signRecord">> {
    const given = { params: { recordId }, body: { password } };
    return (await this.practice.dentist.call("signRecord", given)).ok;
  }
}
