/**
 * Builders of facts for tests and benchmarks: a tray that is in order, and its parts. Products,
 * places and people are made up. Each builder takes what a test is about and fills in the rest.
 */
import type {
  CheckSettings,
  ContainerFacts,
  PlaceFacts,
  ProductFacts,
  Technique,
  TechniqueStep,
  TrayFacts,
  TrayItemFacts,
} from "./facts.ts";

/** The instant at which the fixtures' trays are checked: 25 November 2026 in the practice. */
export const checkedAt = "2026-11-25T09:00:00Z";
/** The civil date of that instant in the practice. */
export const today = "2026-11-25";
/** The fixtures' appointment is a week later. */
export const appointmentDay = "2026-12-02";

/** The operatory of the appointment. */
export const operatoryOne: PlaceFacts = { id: "place-1", name: "Operatory 1", kind: "operatory" };
/** Another operatory. */
export const operatoryTwo: PlaceFacts = { id: "place-2", name: "Operatory 2", kind: "operatory" };
/** The refrigerator. */
export const refrigerator: PlaceFacts = { id: "place-3", name: "Fridge", kind: "refrigerator" };
/** The place for what must not be used. */
export const quarantine: PlaceFacts = { id: "place-4", name: "Red shelf", kind: "quarantine" };

/** An adhesive of the system "North" that needs nothing special; `id` also makes its name. */
export function aProduct(over: Partial<ProductFacts> = {}): ProductFacts {
  return {
    id: "bond-north",
    name: `Product ${over.id ?? "bond-north"}`,
    kind: "adhesive",
    solvents: [],
    strategy: "self-etch",
    system: { id: "north", name: "North" },
    contents: [],
    confirmed: true,
    inUseLife: null,
    applicationSeconds: null,
    airDrySeconds: null,
    cureSeconds: null,
    singleUse: false,
    radiantExposureJCm2: null,
    warmUpMinutes: null,
    dropLifeSeconds: null,
    fillerPercent: null,
    modulusGpa: null,
    excursionLevel: "caution",
    ...over,
  };
}

/** A product of a kind that belongs to no bonding system and has no strategy. */
export function aPlainProduct(
  kind: ProductFacts["kind"],
  over: Partial<ProductFacts> = {},
): ProductFacts {
  return aProduct({ id: kind, kind, strategy: null, system: null, ...over });
}

/** The primer of the system "North": ethanol and water, self-etch. */
export const primerNorth = aProduct({
  id: "primer-north",
  kind: "primer",
  solvents: ["ethanol", "water"],
});
/** The adhesive of the system "North". */
export const bondNorth = aProduct();

/** A sealed container in operatory 1, of a lot that ends in 2028. */
export function aContainer(over: Partial<ContainerFacts> = {}): ContainerFacts {
  return {
    id: "container-1",
    code: "CK7QW4X",
    productId: "bond-north",
    lotId: "lot-1",
    lot: "L7",
    useBy: { date: "2028-03-31", precision: "day" },
    serial: null,
    openedOn: null,
    state: over.openedOn === undefined || over.openedOn === null ? "sealed" : "open",
    place: operatoryOne,
    ...over,
  };
}

const nothingElse = {
  serialTakenBy: null,
  excursions: [],
  leftRefrigeratorAt: null,
  dispensedAt: null,
  stock: null,
  withdrawals: [],
};

/** A container of a product on the tray; the label said nothing that disagrees. */
export function anItem(
  product: ProductFacts,
  over: Partial<Omit<TrayItemFacts, "product" | "container">> & {
    container?: Partial<ContainerFacts> | null;
  } = {},
): TrayItemFacts {
  const { container, ...rest } = over;
  const id = rest.id ?? `item-${product.id}`;
  return {
    id,
    stepKey: null,
    scanned: { identifier: null, lot: null, serial: null, useBy: null },
    product,
    container:
      container === null
        ? null
        : aContainer({ id: `container-of-${id}`, productId: product.id, ...container }),
    onOtherTray: null,
    usedForOtherOn: null,
    ...nothingElse,
    ...rest,
  };
}

/** An item whose identifier is in no catalogue entry. */
export function anUnknownItem(identifier: string | null): TrayItemFacts {
  return {
    id: "item-unknown",
    stepKey: null,
    scanned: { identifier, lot: null, serial: null, useBy: null },
    product: null,
    container: null,
    onOtherTray: null,
    usedForOtherOn: null,
    ...nothingElse,
  };
}

/** A container on the shelf. */
export function onShelf(
  product: ProductFacts,
  over: Partial<ContainerFacts> = {},
): TrayFacts["shelf"][number] {
  return {
    product,
    container: aContainer({
      id: "container-on-shelf",
      code: "CM3AB9T",
      productId: product.id,
      place: operatoryTwo,
      ...over,
    }),
  };
}

/** A required step that accepts one kind, its key, and asks nothing else. */
export function aStep(key: ProductFacts["kind"], over: Partial<TechniqueStep> = {}): TechniqueStep {
  return {
    key,
    name: `Step ${key}`,
    accepts: [key],
    required: true,
    solventsAllowed: null,
    solventNeeded: null,
    etchesDentin: false,
    applicationSeconds: null,
    airDrySeconds: null,
    cureSeconds: null,
    when: null,
    lightDistanceTenthMm: null,
    thicknessTenthMm: null,
    minFillerPercent: null,
    minModulusGpa: null,
    ...over,
  };
}

/** A priming step for self-etch: water is needed, the air-dry lasts 10 s. */
export const primeStep = aStep("primer", { solventNeeded: "water", airDrySeconds: 10 });
/** A step for an adhesive. */
export const bondStep = aStep("adhesive");
/** A step at which dentin is etched. */
export const etchStep = aStep("etchant", { etchesDentin: true });

/** Immediate sealing with a two-step self-etch system, cut down to primer and adhesive. */
export function aTechnique(over: Partial<Technique> = {}): Technique {
  return {
    id: "technique-1",
    name: "Sealing, two-step self-etch",
    version: 1,
    visit: "sealing",
    steps: [primeStep, bondStep],
    ...over,
  };
}

/** Common-practice settings, none raised. */
export function someSettings(over: Partial<CheckSettings> = {}): CheckSettings {
  return {
    shortDatedDays: 30,
    airDrySeconds: { acetone: 5, ethanol: 8, "tert-butanol": 8, water: 10 },
    lightCeilingMwCm2: 2000,
    lightFloorMwCm2: 400,
    lightCheckDays: 30,
    waitingLimitDays: 21,
    raised: [],
    ...over,
  };
}

/** A tray in order: a primer and an adhesive of one system, in date, each at its step. */
export function aTray(over: Partial<TrayFacts> = {}): TrayFacts {
  return {
    timeZone: "Europe/Berlin",
    settings: someSettings(),
    technique: aTechnique(),
    appointmentAt: `${appointmentDay}T08:00:00Z`,
    teeth: [{ tooth: "16", mode: null, provisional: "none", undercut: false }],
    light: null,
    bonding: null,
    seals: [],
    thicknesses: [],
    patient: { allergies: [] },
    place: operatoryOne,
    items: [anItem(primerNorth), anItem(bondNorth)],
    shelf: [],
    preferred: {},
    ...over,
  };
}

/** That tray with another adhesive container than the one in order. */
export function aTrayWithBond(over: Parameters<typeof anItem>[1] = {}): TrayFacts {
  return aTray({ items: [anItem(primerNorth), anItem(bondNorth, over)] });
}
