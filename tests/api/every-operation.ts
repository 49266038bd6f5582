/**
 * One good request for every operation, with all that it needs made anew: what the tests that walk
 * the whole API start from. Optional parts are filled, so that a walk reaches them, too.
 */
import { toothNotations } from "#domain";
import type { RouteName } from "#contracts/routes";
import { password, type Given } from "../helpers/app.ts";
import { gs1Label, newGtin, type Maker } from "../helpers/make.ts";
import type { AnyGiven } from "../helpers/raw.ts";
import { keepingRequests } from "./keeping-requests.ts";
import { addedTemplate, templateRequests } from "./template-requests.ts";
import { waitingRequests } from "./waiting-requests.ts";
import { labelRequests } from "./label-requests.ts";
import { cementRecord, recordRequests } from "./record-requests.ts";

export type Preparing = { [N in RouteName]: (make: Maker) => Promise<Given<N>> };

const noonOfTestDay = "2026-06-15T10:00:00.000Z";
const usualKind = "bonding-cement";

async function productInput(make: Maker) {
  const { id } = (
    await make.practice.office.call("addSystem", { body: { name: make.name("Sys") } })
  ).ok;
  return {
    name: make.name("Product"),
    labeler: `${make.prefix}Labeler (fictional)`,
    kind: "primer" as const,
    solvents: ["acetone" as const],
    strategy: "self-etch" as const,
    systemId: id,
    contents: ["hema" as const],
    inUseLife: { count: 30, unit: "day" as const },
    applicationSeconds: 20,
    airDrySeconds: 10,
    cureSeconds: 10,
    radiantExposureJCm2: 16.5,
    warmUpMinutes: 15,
    dropLifeSeconds: 60,
    fillerPercent: 62.5,
    modulusGpa: 7.5,
    excursionLevel: "stop" as const,
    storageMinC: 2,
    storageMaxC: 25,
    singleUse: false,
    usesPerContainer: 60,
    ifuVersion: "fictional IFU 1",
  };
}

async function receivedCement(make: Maker) {
  return make.received(await make.usualProduct(usualKind));
}

async function moveOf(make: Maker) {
  const { first } = await receivedCement(make);
  return {
    containerId: first.id,
    fromLocationId: make.places.store,
    toLocationId: make.places.operatory,
    quantity: 1,
    reason: "moved" as const,
    note: `${make.prefix}note`,
    occurredAt: "2026-06-15T07:59:00.000Z",
  };
}

async function withdrawalInput(make: Maker) {
  const product = await make.usualProduct("surface-cleaner");
  const { lot } = await make.received(product);
  const scope = [{ productId: product.id, lot }];
  return { reference: make.name("W"), note: `${make.prefix}note`, scope };
}

async function openedWithdrawal(make: Maker) {
  const given = { body: await withdrawalInput(make) };
  return { withdrawalId: (await make.practice.office.call("openWithdrawal", given)).ok.id };
}

let days = 30;
/** Another number each time, so that no two requests are the same. */
const nextDays = (): number => (days += 1);

const preparing: Preparing = {
  getHealth: async () => ({}),
  getSetUp: async () => ({}),
  setUp: async (make) => ({
    body: {
      code: "ABCD-EFGH-JKMN",
      practiceName: make.name("Practice"),
      timeZone: "Europe/Berlin",
      language: "en",
      displayName: make.name("Owner"),
      signInName: "second-owner",
      password,
      alsoDentist: true,
    },
  }),
  signIn: async (make) => ({ body: { signInName: `${make.prefix}office`, password } }),
  switchPerson: async (make) => ({
    body: { personId: make.practice.dentist.id, pin: "2468" },
  }),
  listDevicePeople: async () => ({}),
  getSession: async () => ({}),
  signOut: async () => ({}),
  setPin: async () => ({ body: { password, pin: "2468" } }),

  listPeople: async () => ({}),
  addPerson: async (make) => ({
    body: {
      displayName: make.name("Person"),
      signInName: make.name("p").toLowerCase(),
      password,
      roles: ["assistant"],
    },
  }),
  listDevices: async () => ({}),
  registerDevice: async (make) => ({ body: { name: make.name("Tablet") } }),
  revokeDevice: async (make) => {
    const given = { body: { name: make.name("Tablet") } };
    return {
      params: { deviceId: (await make.practice.office.call("registerDevice", given)).ok.id },
    };
  },
  getScannerProfile: async () => ({}),
  saveScannerProfile: async (make) => ({
    body: {
      profile: {
        gsTokens: [`${make.prefix}~1`.slice(-8)],
        prefix: "S>",
        suffix: "",
        keyboard: "by-position",
        endKey: "Tab",
        maxGapMs: 45,
        minKeys: 6,
      },
      setUpAt: noonOfTestDay,
    },
  }),
  listLocations: async () => ({}),
  getCheckSettings: async () => ({}),
  changeCheckSettings: async () => ({
    body: {
      shortDatedDays: nextDays(),
      airDrySeconds: { acetone: 5, ethanol: 10, "tert-butanol": 10, water: 15 },
      lightCeilingMwCm2: 2000,
      lightFloorMwCm2: 400,
      lightCheckDays: 30,
      waitingLimitDays: 21,
      raised: [],
    },
  }),

  changeToothNotation: async () => ({
    body: { toothNotation: toothNotations[nextDays() % toothNotations.length]! },
  }),
  addLocation: async (make) => ({ body: { name: make.name("Room"), kind: "operatory" } }),

  listProducts: async (make) => ({ query: { kind: usualKind, q: make.prefix } }),
  getProduct: async (make) => ({ params: { productId: (await make.usualProduct(usualKind)).id } }),
  addProduct: async (make) => ({
    body: {
      ...(await productInput(make)),
      identifiers: [
        { scheme: "gs1-gtin", value: newGtin(), packLevel: "unit", containers: 1 },
        { scheme: "hibc", value: make.name("A999").slice(0, 20), packLevel: "box", containers: 4 },
      ],
    },
  }),
  changeProduct: async (make) => {
    const { id, version } = await make.product("primer");
    return { params: { productId: id }, body: { ...(await productInput(make)), version } };
  },
  confirmProduct: async (make) => {
    const { id, version } = await make.product("primer", { confirmed: false });
    return { params: { productId: id }, body: { version, ifuVersion: "fictional IFU 2" } };
  },
  addIdentifier: async (make) => ({
    params: { productId: (await make.usualProduct(usualKind)).id },
    body: { scheme: "gs1-gtin", value: newGtin(), packLevel: "box", containers: 2 },
  }),
  listSystems: async () => ({}),
  addSystem: async (make) => ({ body: { name: make.name("System") } }),
  listTechniques: async () => ({}),

  readScan: async (make) => ({ body: { barcodes: [(await receivedCement(make)).label] } }),
  listDeliveries: async () => ({}),
  openDelivery: async (make) => ({ body: { supplier: make.name("Supplier"), note: "a note" } }),
  getDelivery: async (make) => ({ params: { deliveryId: make.deliveryId } }),
  receive: async (make) => ({
    params: { deliveryId: make.deliveryId },
    body: {
      // A GTIN-13 alone: lot and date are typed.
      barcodes: [`]E0${(await make.usualProduct(usualKind)).gtin.slice(1)}`],
      locationId: make.places.store,
      quantity: 2,
      lot: make.name("L"),
      useBy: "2028-03-31",
      acceptWithoutUseBy: false,
    },
  }),

  listContainers: async (make) => {
    const { lot } = await receivedCement(make);
    return {
      query: {
        location: make.places.store,
        product: (await make.usualProduct(usualKind)).id,
        lot,
        state: "sealed",
        here: "true",
        limit: 10,
        after: "2026-01-01",
      },
    };
  },
  getContainer: async (make) => ({
    params: { containerId: (await receivedCement(make)).first.id },
  }),
  openContainer: async (make) => ({
    params: { containerId: (await receivedCement(make)).first.id },
    body: { on: "2026-06-14" },
  }),
  move: async (make) => ({ body: await moveOf(make) }),
  reverseMovement: async (make) => {
    const moved = await make.practice.office.call("move", { body: await moveOf(make) });
    return {
      params: { movementId: moved.ok.movement.id },
      body: { note: `${make.prefix}wrong place` },
    };
  },
  listBalances: async (make) => ({
    query: { lot: (await receivedCement(make)).lotId, location: make.places.store },
  }),

  listTrays: async () => ({ query: { on: "2026-06-15" } }),
  planTray: async (make) => ({
    body: {
      chartNumber: make.name("C"),
      teeth: [
        {
          tooth: "46",
          mode: "self-etch",
          provisional: "resin",
          undercut: true,
          surfaces: "DOM",
          restoration: "onlay",
        },
      ],
      bondingOn: "2026-06-29",
      techniqueId: make.techniques["bond-restoration"]!,
      locationId: make.places.operatory,
      appointmentAt: noonOfTestDay,
      ...(await addedTemplate(make)),
    },
  }),
  listVisits: async () => ({ query: { from: "2026-06-15", to: "2026-06-16" } }),
  readAppointments: async (make) => ({ body: { text: `${make.name("C")};16;09:30` } }),
  planTrays: async (make) => ({
    body: {
      visits: [
        {
          chartNumber: make.name("C"),
          teeth: [{ tooth: "46" }],
          techniqueId: make.techniques["bond-restoration"]!,
          locationId: make.places.operatory,
          appointmentAt: noonOfTestDay,
        },
      ],
    },
  }),
  changeTray: async (make) => ({
    params: { trayId: (await make.tray()).id },
    body: {
      teeth: [{ tooth: "26", surfaces: "OD" }],
      techniqueId: make.techniques["bond-restoration"]!,
      locationId: make.places.operatory,
      appointmentAt: new Date(Date.parse(noonOfTestDay) + nextDays() * 60_000).toISOString(),
      bondingOn: null,
    },
  }),
  getTray: async (make) => ({ params: { trayId: (await make.tray()).id } }),
  scanIntoTray: async (make) => ({
    params: { trayId: (await make.tray({ technique: "bond-restoration" })).id },
    body: {
      barcodes: [(await receivedCement(make)).first.code],
      stepKey: "cement",
      scannedAt: "2026-06-15T07:59:00.000Z",
    },
  }),
  removeFromTray: async (make) => {
    const { trayId, itemId } = await make.smallTray();
    return { params: { trayId, itemId } };
  },
  getTrayReturns: async (make) => ({ params: { trayId: (await make.smallTray()).trayId } }),
  // A day without trays: there is a page for each, and the tests plan hundreds on their own day.
  getDowntimeSheet: async () => ({ query: { on: "2026-06-22", language: "de" } }),
  clearTray: async (make) => {
    const { trayId, container } = await make.smallTray();
    return { params: { trayId }, body: { usedUp: [container.id] } };
  },
  overrideFinding: async (make) => ({
    params: { trayId: (await make.tray({ technique: "bond-restoration" })).id },
    body: { code: "missing", subject: "cement", reason: `${make.prefix}it stands here unscanned` },
  }),

  changeAllergies: async (make) => {
    const { patient } = await make.tray();
    return { params: { patientId: patient.id }, body: { allergies: ["hema" as const] } };
  },

  traceStock: async (make) => {
    const { lot } = await receivedCement(make);
    return { query: { lot, identifier: (await make.usualProduct(usualKind)).gtin } };
  },
  tracePatient: async (make) => ({
    query: { chart: (await make.tray()).chartNumber, tooth: "16" },
  }),
  listWithdrawals: async () => ({}),
  openWithdrawal: async (make) => ({ body: await withdrawalInput(make) }),
  getWithdrawal: async (make) => ({ params: await openedWithdrawal(make) }),
  segregate: async (make) => ({ params: await openedWithdrawal(make) }),
  closeWithdrawal: async (make) => ({
    params: await openedWithdrawal(make),
    body: { summary: `${make.prefix}all returned` },
  }),

  ...labelRequests,
  ...keepingRequests,
  ...recordRequests,
  ...waitingRequests,
  ...templateRequests,

  listen: async () => ({ query: { once: "true" } }),
  listVerdictChanges: async () => ({}),
  getCheckStatistics: async () => ({ query: { months: 3 } }),
  getToday: async () => ({}),
  listAudit: async () => ({ query: { before: 1_000_000, limit: 10 } }),
  verifyAudit: async () => ({}),
};

/** A good request, as those send it that need not know which operation it is. */
export const prepare = (name: RouteName, make: Maker): Promise<AnyGiven> =>
  preparing[name](make) as Promise<AnyGiven>;

/** Requests of another form that reach what the first ones do not. */
export const prepareMore: [RouteName, string, (make: Maker) => Promise<AnyGiven>][] = [
  [
    "move",
    "a quantity of a lot",
    async (make) => {
      const { lotId } = await receivedCement(make);
      const body = {
        lotId,
        fromLocationId: make.places["count-difference"],
        toLocationId: make.places.store,
        quantity: 3,
        reason: "counted",
        note: "found behind the shelf",
      };
      return { body };
    },
  ],
  ...(
    [
      { kind: "step-started", stepKey: "cement", occurredAt: "2026-06-15T08:00:00.000Z" },
      { kind: "step-done", stepKey: "cement", seconds: 40 },
      { kind: "deviation", stepKey: "cement", text: "cured twice" },
      { kind: "note", text: "a note" },
    ] as const
  ).map((body): (typeof prepareMore)[number] => [
    "addRecordEvent",
    body.kind,
    async (make) => ({ params: { recordId: (await cementRecord(make)).recordId }, body }),
  ]),
  [
    "receive",
    "a label with a serial number",
    async (make) => {
      const { gtin } = await make.usualProduct(usualKind);
      const text = { gtin, lot: make.name("L"), useBy: "2028-03-31", serial: make.name("S") };
      const body = { barcodes: [gs1Label(text)], locationId: make.places.store };
      return { params: { deliveryId: make.deliveryId }, body };
    },
  ],
  [
    "traceStock",
    "by a container's code",
    async (make) => ({ query: { container: (await receivedCement(make)).first.code } }),
  ],
];
