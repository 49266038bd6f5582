/**
 * Findings that need more than a set of bottles: a light, a technique, a place, a plan. Each case
 * makes a tray that raises its code and says what the finding must hold; run by `findings-visit`.
 */
import type { FindingCode, FindingLevel } from "#domain";
import type { BodyOf } from "#contracts/operations";
import type { TestApp } from "../helpers/app.ts";
import type { Maker } from "../helpers/make.ts";
import { gs1Label } from "../helpers/make.ts";

export interface Bench {
  it: TestApp;
  make: Maker;
  /** What a case has to undo, so that the next one starts from a practice in order. */
  after?: () => Promise<void>;
}
export interface VisitCase {
  code: FindingCode;
  level: FindingLevel;
  /** The tray that raises it. */
  trayId: (bench: Bench) => Promise<string>;
  holds: object;
}

type Step = BodyOf<"addTechnique">["steps"][number];

/** A technique of the steps told, with a tray for it that holds one container of each product. */
async function visitOf(
  { it, make }: Bench,
  told: {
    steps: Step[];
    products: readonly { gtin: string }[];
    visit?: "sealing" | "bonding";
    plan?: Partial<BodyOf<"planTray">>;
  },
): Promise<string> {
  const { steps, products, visit = "sealing", plan = {} } = told;
  const body = { name: make.name("Technique"), visit, steps };
  const technique = (await it.practice.dentist.call("addTechnique", { body })).ok;
  const tray = await make.tray({ ...plan, techniqueId: technique.id });
  for (const product of products) {
    const { first } = await make.received(product);
    await make.scanned(tray.id, first.code);
  }
  return tray.id;
}

const coat = (over: Partial<Step> = {}): Step => ({
  key: "coat",
  name: "Resin coat",
  accepts: ["flowable"],
  ...over,
});

/** An operatory with a light of its own that gives so much at the tip. */
async function roomWithLight({ it, make }: Bench, irradianceMwCm2: number, readAt?: string) {
  const room = { name: make.name("Room"), kind: "operatory" as const };
  const { id: locationId } = (await it.practice.office.call("addLocation", { body: room })).ok;
  const body = { name: make.name("Light"), locationId, modes: [{ name: "Standard" }] };
  const { id: lightId } = (await it.practice.office.call("addLight", { body })).ok;
  const reading = { mode: "Standard", irradianceMwCm2, ...(readAt && { readAt }) };
  await it.practice.assistant.call("addLightReading", { params: { lightId }, body: reading });
  return locationId;
}

async function litVisit(bench: Bench, irradiance: number, readAt?: string): Promise<string> {
  const locationId = await roomWithLight(bench, irradiance, readAt);
  const product = await bench.make.product("flowable", { radiantExposureJCm2: 16 });
  const steps = [coat({ cureSeconds: 20 })];
  return visitOf(bench, { steps, products: [product], plan: { locationId } });
}

async function excursedVisit(bench: Bench, excursionLevel: "caution" | "stop"): Promise<string> {
  const { it, make } = bench;
  const product = await make.product("flowable", { excursionLevel });
  const { first } = await make.received(product);
  const receivedMs = it.clock.now().getTime();
  const body = {
    locationId: make.places.store,
    from: new Date(receivedMs - 3_600_000).toISOString(),
    to: new Date(receivedMs + 1000).toISOString(),
    highestC: 41,
  };
  it.clock.set(body.to);
  const opened = (await it.practice.assistant.call("openExcursion", { body })).ok;
  const trayId = await visitOf(bench, { steps: [coat()], products: [] });
  await make.scanned(trayId, first.code);
  bench.after = async () => {
    const given = { params: { excursionId: opened.id }, body: { resolution: "looked into" } };
    await it.practice.dentist.call("resolveExcursion", given);
  };
  return trayId;
}

const separating: Step = {
  key: "separate",
  name: "Separate",
  accepts: ["separating-agent"],
  required: false,
};

/** A sealed tooth whose provisional stands on this cement, and the tray of its bonding visit. */
async function bondedAfter(
  { it, make }: Bench,
  contents: BodyOf<"addProduct">["contents"] = [],
): Promise<string> {
  const chartNumber = make.name("C");
  const cement = await make.product("provisional-cement", { contents });
  const steps: Step[] = [{ key: "cover", name: "Cover", accepts: ["provisional-cement"] }];
  const sealed = await visitOf({ it, make }, { steps, products: [cement], plan: { chartNumber } });
  const params = { trayId: sealed };
  const { check } = (await it.practice.dentist.call("getTray", { params })).ok;
  for (const { code, subject, level } of check.findings) {
    const body = { code, subject: subject.itemId ?? "tray", reason: "asked for by the test" };
    if (level === "stop") await it.practice.dentist.call("overrideFinding", { params, body });
  }
  const record = await make.worked(await make.started(sealed));
  await make.signed(record.id);
  await it.practice.assistant.call("clearTray", { params, body: {} });
  return (await make.tray({ technique: "bond-restoration", chartNumber })).id;
}

/** What is done to a record at its one step, before its tray is looked at again. */
async function workedVisit(
  bench: Bench,
  told: { step: Step; product: { gtin: string } },
  event: (containerId: string) => BodyOf<"addRecordEvent">,
): Promise<string> {
  const { it, make } = bench;
  const trayId = await visitOf(bench, { steps: [told.step], products: [told.product] });
  const { id: recordId } = await make.started(trayId);
  const tray = (await it.practice.dentist.call("getTray", { params: { trayId } })).ok;
  const body = event(tray.items[0]!.container!.id);
  await it.practice.assistant.call("addRecordEvent", { params: { recordId }, body });
  return trayId;
}

export const visitCases: readonly VisitCase[] = [
  {
    code: "serial-twice",
    level: "stop",
    trayId: async (bench) => {
      const { make } = bench;
      const product = await make.product("flowable");
      const serial = make.name("S").slice(0, 20);
      await make.received(product, { serial });
      const other = await make.received(product);
      const trayId = await visitOf(bench, { steps: [coat()], products: [] });
      await make.scanned(trayId, other.first.code);
      const { gtin } = product;
      const label = gs1Label({ gtin, lot: other.lot, useBy: "2028-03-31", serial });
      await make.scanned(trayId, label);
      return trayId;
    },
    holds: { remedy: { code: "check-label" } },
  },
  {
    code: "cold",
    level: "caution",
    trayId: async (bench) => {
      const { make } = bench;
      const product = await make.product("flowable", { warmUpMinutes: 15 });
      const { first } = await make.received(product, { locationId: make.places.refrigerator });
      const trayId = await visitOf(bench, { steps: [coat()], products: [] });
      await make.scanned(trayId, first.code);
      return trayId;
    },
    holds: { numbers: { minutes: 15, minutesLeft: 15 }, remedy: { code: "let-warm" } },
  },
  {
    code: "storage-excursion",
    level: "caution",
    trayId: (bench) => excursedVisit(bench, "caution"),
    holds: { numbers: { reason: "day", place: "Store", from: "2026-06-15" } },
  },
  {
    code: "storage-excursion",
    level: "stop",
    trayId: (bench) => excursedVisit(bench, "stop"),
    holds: { remedy: { code: "settle-excursion" } },
  },
  {
    code: "low-after-this",
    level: "info",
    trayId: async (bench) => {
      const product = await bench.make.product("flowable", { usesPerContainer: 3 });
      const given = { params: { productId: product.id }, body: { reorderUses: 3 } };
      await bench.it.practice.office.call("setReorderPoint", given);
      return visitOf(bench, { steps: [coat()], products: [product] });
    },
    holds: { numbers: { left: 2, reorderUses: 3 }, remedy: { code: "reorder" } },
  },
  {
    code: "ends-before-bonding",
    level: "caution",
    trayId: async (bench) => {
      const { make } = bench;
      const product = await make.product("surface-cleaner");
      const { first } = await make.received(product, { useBy: "2026-06-28" });
      const steps: Step[] = [{ key: "clean", name: "Clean", accepts: ["surface-cleaner"] }];
      const plan = { bondingOn: "2026-06-29" };
      const trayId = await visitOf(bench, { steps, products: [], plan });
      await make.scanned(trayId, first.code);
      return trayId;
    },
    holds: { numbers: { end: "2026-06-28", bonding: "2026-06-29" } },
  },
  {
    code: "exposure-too-low",
    level: "stop",
    // 799 mW/cm2 for 20 s are 15.98 J/cm2: H = E t, FDI policy statement, 2021.
    trayId: (bench) => litVisit(bench, 799),
    holds: { numbers: { reason: "measured", givenJ: 15.9, neededJ: 16, enoughSeconds: 21 } },
  },
  {
    code: "exposure-extreme",
    level: "caution",
    trayId: (bench) => litVisit(bench, 2001),
    holds: { subject: { type: "light" }, numbers: { reason: "output", output: 2001 } },
  },
  {
    code: "light-check-overdue",
    level: "caution",
    trayId: (bench) => litVisit(bench, 1000, "2026-05-15T08:00:00.000Z"),
    holds: { numbers: { reason: "overdue", readOn: "2026-05-15", days: 31, limit: 30 } },
  },
  {
    code: "light-check-overdue",
    level: "stop",
    trayId: (bench) => litVisit(bench, 399),
    holds: { numbers: { reason: "weak", output: 399, floor: 400 } },
  },
  {
    code: "modulus-or-filler-low",
    level: "caution",
    trayId: async (bench) => {
      const product = await bench.make.product("flowable", { fillerPercent: 40 });
      return visitOf(bench, { steps: [coat({ minFillerPercent: 60 })], products: [product] });
    },
    holds: { numbers: { reason: "filler", held: 40, needed: 60 } },
  },
  {
    code: "seal-benefit",
    level: "info",
    trayId: async (bench) => {
      const product = await bench.make.product("adhesive", { strategy: "self-etch" });
      const steps: Step[] = [{ key: "bond", name: "Bond", accepts: ["adhesive"] }];
      return visitOf(bench, { steps, products: [product] });
    },
    holds: { numbers: { reason: "self-etch" }, remedy: { code: "none" } },
  },
  {
    code: "blocking-agent",
    level: "stop",
    trayId: async (bench) => {
      const product = await bench.make.product("other-barrier");
      const accepts: Step["accepts"] = ["glycerin-gel", "other-barrier"];
      const steps: Step[] = [{ key: "barrier", name: "Glycerin", accepts }];
      return visitOf(bench, { steps, products: [product] });
    },
    holds: { numbers: { reason: "no-glycerin", kind: "other-barrier" } },
  },
  {
    code: "blocking-agent",
    level: "caution",
    trayId: async (bench) => {
      const product = await bench.make.product("flowable");
      const plan = { teeth: [{ tooth: "36", provisional: "resin" as const }] };
      return visitOf(bench, { steps: [coat(), separating], products: [product], plan });
    },
    holds: { subject: { type: "tooth", name: "36" }, numbers: { reason: "no-separator" } },
  },
  {
    code: "eugenol",
    level: "info",
    trayId: (bench) => bondedAfter(bench),
    holds: { numbers: { reason: "free", tooth: "16", sealedOn: "2026-06-15" } },
  },
  {
    code: "eugenol",
    level: "caution",
    trayId: (bench) => bondedAfter(bench, ["eugenol"]),
    holds: { numbers: { reason: "used" }, remedy: { code: "clean-surface" } },
  },
  {
    code: "thickness-range",
    level: "caution",
    trayId: async (bench) => {
      const product = await bench.make.product("flowable");
      const step = coat({ thicknessTenthMm: { min: 3, max: 8 } });
      return workedVisit(bench, { step, product }, () => ({
        kind: "thickness",
        stepKey: "coat",
        tenthMm: 9,
      }));
    },
    holds: { numbers: { reason: "thick", tooth: "16", measuredMm: 0.9, maxMm: 0.8 } },
  },
  {
    code: "drop-aging",
    level: "caution",
    trayId: async (bench) => {
      const product = await bench.make.product("flowable", { dropLifeSeconds: 30 });
      return workedVisit(bench, { step: coat(), product }, (containerId) => ({
        kind: "dispensed",
        stepKey: "coat",
        containerId,
        occurredAt: new Date(bench.it.clock.now().getTime() - 31_000).toISOString(),
      }));
    },
    holds: { numbers: { ageSeconds: 31, lifeSeconds: 30 }, remedy: { code: "fresh-drop" } },
  },
];
