/**
 * One tray for every finding and every reason that a finding knows, each off the tray in order by
 * that one thing. Tests of the checks and of their sentences both walk through this list.
 */
import {
  aPlainProduct,
  aProduct,
  aStep,
  aTechnique,
  aTray,
  aTrayWithBond,
  anItem,
  anUnknownItem,
  bondNorth,
  bondStep,
  etchStep,
  onShelf,
  primerNorth,
  primeStep,
  quarantine,
} from "./facts.fixture.ts";
import { troubledVisits } from "./troubled-visits.fixture.ts";
import type { FindingCode, ProductFacts, TechniqueStep, TrayFacts } from "./facts.ts";

/** A tray, the finding it must raise, and that finding's reason where it knows several. */
export interface TroubledTray {
  title: string;
  code: FindingCode;
  reason: string | null;
  facts: TrayFacts;
}

const dated = (date: string): { useBy: { date: string; precision: "day" } } => ({
  useBy: { date, precision: "day" },
});
const scanned = { identifier: null, lot: null, serial: null, useBy: null };
const opened = (openedOn: string): { openedOn: string; state: "open" } => ({
  openedOn,
  state: "open",
});
const twoWeeks = aProduct({ inUseLife: { count: 14, unit: "day" } });

function withBondProduct(product: ProductFacts, bond: TechniqueStep = bondStep): TrayFacts {
  return aTray({
    technique: aTechnique({ steps: [primeStep, bond] }),
    items: [anItem(primerNorth), anItem(product)],
  });
}

function withPrimer(primer: ProductFacts, prime: TechniqueStep = primeStep): TrayFacts {
  return aTray({
    technique: aTechnique({ steps: [prime, bondStep] }),
    items: [anItem(primer), anItem(bondNorth)],
  });
}

const etchant = anItem(aPlainProduct("etchant"));

const inTime: readonly TroubledTray[] = [
  {
    title: "the use-by date was yesterday",
    code: "past-use-by",
    reason: null,
    facts: aTrayWithBond({ container: dated("2026-11-24") }),
  },
  {
    title: "opened longer ago than the IFU allows",
    code: "past-in-use-life",
    reason: null,
    facts: aTray({
      items: [anItem(primerNorth), anItem(twoWeeks, { container: opened("2026-11-10") })],
    }),
  },
  {
    title: "the label ends before the appointment",
    code: "ends-before-appointment",
    reason: "use-by",
    facts: aTrayWithBond({ container: dated("2026-12-01") }),
  },
  {
    title: "the in-use life ends before the appointment",
    code: "ends-before-appointment",
    reason: "in-use-life",
    facts: aTray({
      items: [anItem(primerNorth), anItem(twoWeeks, { container: opened("2026-11-12") })],
    }),
  },
  {
    title: "one day less left than the practice wants",
    code: "short-dated",
    reason: null,
    facts: aTrayWithBond({ container: dated("2026-12-24") }),
  },
  {
    title: "another container ends earlier",
    code: "earlier-exists",
    reason: "earlier",
    facts: aTray({ shelf: [onShelf(bondNorth, dated("2028-03-30"))] }),
  },
  {
    title: "another container ends, this one has no end",
    code: "earlier-exists",
    reason: "earlier-than-none",
    facts: {
      ...aTrayWithBond({ container: { useBy: null } }),
      shelf: [onShelf(bondNorth, dated("2028-03-30"))],
    },
  },
  {
    title: "another container of the same date is open",
    code: "earlier-exists",
    reason: "open",
    facts: aTray({ shelf: [onShelf(bondNorth, opened("2026-11-20"))] }),
  },
];

const whereabouts: readonly TroubledTray[] = [
  {
    title: "two open withdrawals cover it",
    code: "withdrawn",
    reason: null,
    facts: aTrayWithBond({
      withdrawals: [
        { id: "w2", reference: "W-2026-2" },
        { id: "w1", reference: "W-2026-1" },
      ],
    }),
  },
  {
    title: "it stands in quarantine",
    code: "in-quarantine",
    reason: null,
    facts: aTrayWithBond({ container: { state: "quarantined", place: quarantine } }),
  },
  ...(["empty", "discarded", "returned", "lost"] as const).map((state) => ({
    title: `it is booked as ${state}`,
    code: "not-available" as const,
    reason: state,
    facts: aTrayWithBond({ container: { state } }),
  })),
  {
    title: "it stands on another tray",
    code: "not-available",
    reason: "other-tray",
    facts: aTrayWithBond({ onOtherTray: { id: "tray-9", name: "Tray 14:00" } }),
  },
  {
    title: "it was never received",
    code: "not-available",
    reason: "not-received",
    facts: aTrayWithBond({ container: null }),
  },
  {
    title: "the label gives another date",
    code: "label-conflict",
    reason: "use-by",
    facts: aTrayWithBond({ scanned: { ...scanned, useBy: "2028-03-30" } }),
  },
  {
    title: "the label gives a date where none is stored",
    code: "label-conflict",
    reason: "use-by-not-stored",
    facts: aTrayWithBond({
      scanned: { ...scanned, useBy: "2028-03-30" },
      container: { useBy: null },
    }),
  },
  {
    title: "the label gives another lot",
    code: "label-conflict",
    reason: "lot",
    facts: aTrayWithBond({ scanned: { ...scanned, lot: "LT" } }),
  },
  {
    title: "the label gives another serial",
    code: "label-conflict",
    reason: "serial",
    facts: aTrayWithBond({ scanned: { ...scanned, serial: "2" }, container: { serial: "1" } }),
  },
];

const places: readonly TroubledTray[] = [
  {
    title: "the adhesive was put at the primer's step",
    code: "wrong-kind",
    reason: "step",
    facts: aTray({
      items: [
        anItem(primerNorth),
        anItem(bondNorth, { id: "item-x", stepKey: "primer" }),
        anItem(bondNorth),
      ],
    }),
  },
  {
    title: "it was put at a step without material",
    code: "wrong-kind",
    reason: "no-material",
    facts: aTray({
      technique: aTechnique({
        steps: [aStep("other-barrier", { accepts: [] }), primeStep, bondStep],
      }),
      items: [
        anItem(primerNorth),
        anItem(bondNorth),
        anItem(bondNorth, { id: "item-x", stepKey: "other-barrier" }),
      ],
    }),
  },
  {
    title: "no step has a place for it",
    code: "wrong-kind",
    reason: "no-step",
    facts: aTray({ items: [...aTray().items, anItem(aPlainProduct("provisional-cement"))] }),
  },
  {
    title: "the adhesive is not there",
    code: "missing",
    reason: null,
    facts: aTray({ items: [anItem(primerNorth)] }),
  },
  {
    title: "an unknown identifier was scanned",
    code: "unknown-product",
    reason: "identifier",
    facts: aTray({ items: [...aTray().items, anUnknownItem("09506000134352")] }),
  },
  {
    title: "a label without identifier was scanned",
    code: "unknown-product",
    reason: "no-identifier",
    facts: aTray({ items: [...aTray().items, anUnknownItem(null)] }),
  },
  {
    title: "nobody confirmed the entry",
    code: "unconfirmed",
    reason: null,
    facts: withBondProduct(aProduct({ confirmed: false })),
  },
];

const chemistry: readonly TroubledTray[] = [
  {
    title: "the entry does not state its solvents",
    code: "wrong-solvent",
    reason: "not-stated",
    facts: withPrimer({ ...primerNorth, solvents: null }),
  },
  {
    title: "a primer without water at a step that needs it",
    code: "wrong-solvent",
    reason: "needed",
    facts: withPrimer({ ...primerNorth, solvents: ["ethanol"] }),
  },
  {
    title: "acetone where the technique allows ethanol and water",
    code: "wrong-solvent",
    reason: "not-allowed",
    facts: withPrimer(
      { ...primerNorth, solvents: ["water", "acetone"] },
      { ...primeStep, solventsAllowed: ["ethanol", "water"] },
    ),
  },
  {
    title: "the IFU asks for longer drying",
    code: "drying-too-short",
    reason: "ifu",
    facts: withPrimer({ ...primerNorth, airDrySeconds: 11 }),
  },
  {
    title: "the practice dries water longer",
    code: "drying-too-short",
    reason: "solvent",
    facts: withPrimer(primerNorth, { ...primeStep, airDrySeconds: 9 }),
  },
  {
    title: "solvents not stated, dried too short for water",
    code: "drying-too-short",
    reason: "not-stated",
    facts: withPrimer(
      { ...primerNorth, solvents: null },
      { ...primeStep, solventNeeded: null, airDrySeconds: 9 },
    ),
  },
  {
    title: "the IFU asks to apply it longer",
    code: "application-too-short",
    reason: null,
    facts: withPrimer(
      { ...primerNorth, applicationSeconds: 21 },
      { ...primeStep, applicationSeconds: 20 },
    ),
  },
  {
    title: "a single-use container that served another patient",
    code: "single-use-reused",
    reason: null,
    facts: aTray({
      items: [
        anItem(primerNorth),
        anItem(aProduct({ singleUse: true }), { usedForOtherOn: "2026-11-20" }),
      ],
    }),
  },
  {
    title: "primer and adhesive of two systems",
    code: "system-split",
    reason: "differ",
    facts: withBondProduct(aProduct({ system: { id: "south", name: "South" } })),
  },
  {
    title: "the adhesive belongs to no system",
    code: "system-split",
    reason: "other-without",
    facts: withBondProduct(aProduct({ system: null })),
  },
  {
    title: "the primer belongs to no system",
    code: "system-split",
    reason: "part-without",
    facts: withPrimer({ ...primerNorth, system: null }),
  },
  {
    title: "dentin is etched under a self-etch system",
    code: "strategy-conflict",
    reason: "etched",
    facts: aTray({
      technique: aTechnique({ steps: [etchStep, primeStep, bondStep] }),
      items: [etchant, anItem(primerNorth), anItem(bondNorth)],
    }),
  },
  {
    title: "nothing is etched under an etch-and-rinse adhesive",
    code: "strategy-conflict",
    reason: "not-etched",
    facts: withBondProduct(aProduct({ strategy: "etch-and-rinse" })),
  },
];

const cement = aPlainProduct("provisional-cement", { contents: ["eugenol"] });

const beforeBonding: readonly TroubledTray[] = [
  {
    title: "the patient reacts to what it contains",
    code: "allergy",
    reason: null,
    facts: {
      ...aTrayWithBond(),
      patient: { allergies: ["hema"] },
      items: [anItem(primerNorth), anItem(aProduct({ contents: ["hema"] }))],
    },
  },
  {
    title: "a provisional cement with eugenol where bonding follows",
    code: "eugenol",
    reason: "planned",
    facts: aTray({
      technique: aTechnique({ steps: [primeStep, bondStep, aStep("provisional-cement")] }),
      items: [...aTray().items, anItem(cement)],
    }),
  },
];

/** Every finding with every reason it knows, one tray each. */
export const troubledTrays: readonly TroubledTray[] = [
  ...inTime,
  ...whereabouts,
  ...places,
  ...chemistry,
  ...beforeBonding,
  ...troubledVisits,
];
