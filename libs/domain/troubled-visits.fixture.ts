/** Troubled trays of light, coats, storage, time and teeth: the rest of `troubled-trays`. */
import {
  aPlainProduct,
  aProduct,
  aStep,
  aTechnique,
  aTray,
  aTrayWithBond,
  anItem,
  bondStep,
  primerNorth,
  primeStep,
} from "./facts.fixture.ts";
import type { LightFacts, SealFacts, TechniqueStep, TrayFacts } from "./facts.ts";
import type { TroubledTray } from "./troubled-trays.fixture.ts";

/** Lamp B of IADR 2013, IAGS abstract 684, table 1, centre sensor: 0 mm and 4 mm. */
export const lampB: LightFacts = {
  id: "light-1",
  name: "Lamp B",
  table: [
    { distanceTenthMm: 0, irradianceMwPerCm2: 1226 },
    { distanceTenthMm: 40, irradianceMwPerCm2: 806 },
  ],
  readOn: "2026-11-20",
};

/** That tray whose adhesive is cured for `seconds` with a light and needs `neededJ` J/cm2. */
export function aCuredTray(told: {
  seconds: number;
  neededJ?: number;
  distanceTenthMm?: number;
  light?: LightFacts | null;
}): TrayFacts {
  const { seconds, neededJ = null, distanceTenthMm = null, light = lampB } = told;
  const bond: TechniqueStep = {
    ...bondStep,
    cureSeconds: seconds,
    lightDistanceTenthMm: distanceTenthMm,
  };
  return aTray({
    technique: aTechnique({ steps: [primeStep, bond] }),
    items: [anItem(primerNorth), anItem(aProduct({ radiantExposureJCm2: neededJ }))],
    light,
  });
}

/** A tray in order with a coat, whose product and step are told. */
export function aCoatedTray(
  product: Parameters<typeof aProduct>[0],
  step: Partial<TechniqueStep>,
  thicknesses: TrayFacts["thicknesses"] = [],
): TrayFacts {
  const coat = aStep("flowable", step);
  return aTray({
    technique: aTechnique({ steps: [primeStep, bondStep, coat] }),
    items: [...aTray().items, anItem(aPlainProduct("flowable", product))],
    thicknesses,
  });
}

const onBond = (
  facts: Parameters<typeof anItem>[1],
  product: Parameters<typeof aProduct>[0] = {},
) => aTray({ items: [anItem(primerNorth), anItem(aProduct(product), facts)] });

const light: readonly TroubledTray[] = [
  {
    title: "the light is too weak at the distance measured",
    code: "exposure-too-low",
    reason: "measured",
    facts: aCuredTray({ seconds: 19, neededJ: 16, distanceTenthMm: 40 }),
  },
  {
    title: "the light is too weak between two distances measured",
    code: "exposure-too-low",
    reason: "between",
    facts: aCuredTray({ seconds: 10, neededJ: 16, distanceTenthMm: 20 }),
  },
  {
    title: "the light is too weak farther than measured",
    code: "exposure-too-low",
    reason: "estimate",
    facts: aCuredTray({ seconds: 10, neededJ: 16, distanceTenthMm: 60 }),
  },
  {
    title: "the light is stronger than the practice wants",
    code: "exposure-extreme",
    reason: "output",
    facts: aCuredTray({
      seconds: 10,
      light: { ...lampB, table: [{ distanceTenthMm: 0, irradianceMwPerCm2: 2001 }] },
    }),
  },
  {
    title: "a cure of four seconds",
    code: "exposure-extreme",
    reason: "short",
    facts: aCuredTray({ seconds: 4 }),
  },
  {
    title: "the light was never measured",
    code: "light-check-overdue",
    reason: "never",
    facts: aCuredTray({ seconds: 10, light: { ...lampB, table: [], readOn: null } }),
  },
  {
    title: "the light was measured a day too long ago",
    code: "light-check-overdue",
    reason: "overdue",
    facts: aCuredTray({ seconds: 10, light: { ...lampB, readOn: "2026-10-25" } }),
  },
  {
    title: "the light has faded",
    code: "light-check-overdue",
    reason: "weak",
    facts: aCuredTray({
      seconds: 10,
      light: { ...lampB, table: [{ distanceTenthMm: 0, irradianceMwPerCm2: 399 }] },
    }),
  },
];

const range = { thicknessTenthMm: { min: 3, max: 8 } };
const coats: readonly TroubledTray[] = [
  {
    title: "the coat is too thin",
    code: "thickness-range",
    reason: "thin",
    facts: aCoatedTray({}, range, [{ tooth: "16", stepKey: "flowable", tenthMm: 2 }]),
  },
  {
    title: "the coat is too thick",
    code: "thickness-range",
    reason: "thick",
    facts: aCoatedTray({}, range, [{ tooth: "16", stepKey: "flowable", tenthMm: 9 }]),
  },
  {
    title: "the flowable has too little filler",
    code: "modulus-or-filler-low",
    reason: "filler",
    facts: aCoatedTray({ fillerPercent: 59.9 }, { minFillerPercent: 60 }),
  },
  {
    title: "the flowable's filler is not stated",
    code: "modulus-or-filler-low",
    reason: "filler-not-stated",
    facts: aCoatedTray({}, { minFillerPercent: 60 }),
  },
  {
    title: "the flowable is too soft",
    code: "modulus-or-filler-low",
    reason: "modulus",
    facts: aCoatedTray({ modulusGpa: 4.9 }, { minModulusGpa: 5 }),
  },
  {
    title: "the flowable's modulus is not stated",
    code: "modulus-or-filler-low",
    reason: "modulus-not-stated",
    facts: aCoatedTray({}, { minModulusGpa: 5 }),
  },
];

const excursion = (from: string, to: string) => ({
  excursions: [{ id: "e1", place: "Fridge", from, to }],
});
const keeping: readonly TroubledTray[] = [
  {
    title: "an excursion of one day",
    code: "storage-excursion",
    reason: "day",
    facts: onBond(excursion("2026-11-20T06:00:00Z", "2026-11-20T20:00:00Z")),
  },
  {
    title: "an excursion over days",
    code: "storage-excursion",
    reason: "days",
    facts: onBond(excursion("2026-11-20T06:00:00Z", "2026-11-22T20:00:00Z")),
  },
  {
    title: "out of the refrigerator for too short a time",
    code: "cold",
    reason: null,
    facts: onBond({ leftRefrigeratorAt: "2026-11-25T08:50:00Z" }, { warmUpMinutes: 15 }),
  },
  {
    title: "a drop that waited too long",
    code: "drop-aging",
    reason: null,
    facts: onBond({ dispensedAt: "2026-11-25T08:58:00Z" }, { dropLifeSeconds: 60 }),
  },
  {
    title: "its serial is registered on another container",
    code: "serial-twice",
    reason: null,
    facts: onBond({ serialTakenBy: "CM3AB9T", scanned: { ...noScan(), serial: "S7" } }),
  },
  {
    title: "fewer uses left than the practice reorders at",
    code: "low-after-this",
    reason: null,
    facts: onBond({ stock: { usesLeft: 5, reorderUses: 5 } }),
  },
];

function noScan() {
  return { identifier: null, lot: null, serial: null, useBy: null };
}

const bonding = { on: "2026-12-16", accepts: ["adhesive"] as const };
const seal: SealFacts = {
  tooth: "16",
  sealedOn: "2026-11-11",
  provisionalCement: { name: "Temp", eugenol: true },
};
const glycerin = aStep("glycerin-gel", { accepts: ["glycerin-gel", "other-barrier"] });
const teeth: readonly TroubledTray[] = [
  {
    title: "the label ends before the bonding visit",
    code: "ends-before-bonding",
    reason: "use-by",
    facts: {
      ...aTrayWithBond({ container: { useBy: { date: "2026-12-15", precision: "day" } } }),
      bonding,
    },
  },
  {
    title: "the in-use life ends before the bonding visit",
    code: "ends-before-bonding",
    reason: "in-use-life",
    facts: {
      ...onBond(
        { container: { openedOn: "2026-11-25", state: "open" } },
        { inUseLife: { count: 20, unit: "day" } },
      ),
      bonding,
    },
  },
  {
    title: "something else where glycerin gel belongs",
    code: "blocking-agent",
    reason: "no-glycerin",
    facts: aTray({
      technique: aTechnique({ steps: [primeStep, bondStep, glycerin] }),
      items: [...aTray().items, anItem(aPlainProduct("other-barrier"))],
    }),
  },
  {
    title: "no separating agent under a resin provisional",
    code: "blocking-agent",
    reason: "no-separator",
    facts: aTray({ teeth: [{ tooth: "16", mode: null, provisional: "resin", undercut: false }] }),
  },
  {
    title: "an etch-and-rinse adhesive that is its own primer",
    code: "seal-benefit",
    reason: "etch-and-rinse",
    facts: aTray({
      technique: aTechnique({ steps: [bondStep] }),
      items: [anItem(aProduct({ strategy: "etch-and-rinse" }))],
    }),
  },
  {
    title: "a self-etch adhesive in one step",
    code: "seal-benefit",
    reason: "self-etch",
    facts: aTray({ technique: aTechnique({ steps: [bondStep] }), items: [anItem(aProduct())] }),
  },
  {
    title: "a cement with eugenol stood on the seal",
    code: "eugenol",
    reason: "used",
    facts: { ...aTray(), technique: aTechnique({ visit: "bonding" }), seals: [seal] },
  },
  {
    title: "a cement without eugenol stood on the seal",
    code: "eugenol",
    reason: "free",
    facts: {
      ...aTray(),
      technique: aTechnique({ visit: "bonding" }),
      seals: [{ ...seal, provisionalCement: { name: "Free", eugenol: false } }],
    },
  },
];

/** One tray for each of these findings and reasons. */
export const troubledVisits: readonly TroubledTray[] = [...light, ...coats, ...keeping, ...teeth];
