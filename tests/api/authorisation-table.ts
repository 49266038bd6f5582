/** Who may do what, and to whose things: a line for every operation, or it does not compile. */
import type { RouteName } from "#contracts/routes";
import type { Role } from "#domain";

export interface Line {
  /** Nobody else may. "anyone" needs no session, "member" is whoever has one. */
  who: "anyone" | "member" | readonly Role[];
  /** Every id in the request, by its path: the status where it is not this practice's. */
  ids: Readonly<Record<string, number>>;
  /** Where even a good request is answered with another status here. */
  answers?: number;
}

const clinical = ["assistant", "dentist"] as const;
const keepers = ["assistant", "dentist", "office", "owner"] as const;
const desk = ["office", "owner"] as const;

export const table: Record<RouteName, Line> = {
  getHealth: { who: "anyone", ids: {} },
  getSetUp: { who: "anyone", ids: {} },
  setUp: { who: "anyone", ids: {}, answers: 404 },
  signIn: { who: "anyone", ids: {} },
  // Not from a registered tablet.
  switchPerson: { who: "anyone", ids: { "body.personId": 401 }, answers: 401 },
  listDevicePeople: { who: "anyone", ids: {} },
  getSession: { who: "member", ids: {} },
  signOut: { who: "member", ids: {} },
  setPin: { who: "member", ids: {} },

  listPeople: { who: desk, ids: {} },
  addPerson: { who: ["owner"], ids: {} },
  listDevices: { who: desk, ids: {} },
  registerDevice: { who: desk, ids: {} },
  revokeDevice: { who: desk, ids: { "params.deviceId": 404 } },
  getScannerProfile: { who: "member", ids: {} },
  // None of these people sits at a registered tablet.
  saveScannerProfile: { who: "member", ids: {}, answers: 404 },
  listLocations: { who: "member", ids: {} },
  changeToothNotation: { who: ["dentist", "office", "owner"], ids: {} },
  addLocation: { who: desk, ids: {} },
  getCheckSettings: { who: "member", ids: {} },
  changeCheckSettings: { who: ["dentist", "owner"], ids: {} },

  listProducts: { who: "member", ids: {} },
  getProduct: { who: "member", ids: { "params.productId": 404 } },
  addProduct: { who: keepers, ids: { "body.systemId": 404 } },
  changeProduct: { who: keepers, ids: { "params.productId": 404, "body.systemId": 404 } },
  confirmProduct: { who: ["dentist"], ids: { "params.productId": 404 } },
  addIdentifier: { who: keepers, ids: { "params.productId": 404 } },
  listSystems: { who: "member", ids: {} },
  addSystem: { who: keepers, ids: {} },
  listTechniques: { who: "member", ids: {} },

  getTechnique: { who: "member", ids: { "params.techniqueId": 404 } },
  addTechnique: { who: ["dentist", "owner"], ids: { "body.madeFrom": 404 } },
  changeTechnique: { who: ["dentist", "owner"], ids: { "params.techniqueId": 404 } },
  retireTechnique: { who: ["dentist", "owner"], ids: { "params.techniqueId": 404 } },
  confirmTechnique: { who: ["dentist"], ids: { "params.techniqueId": 404 } },

  readScan: { who: "member", ids: {} },
  listDeliveries: { who: "member", ids: {} },
  openDelivery: { who: keepers, ids: {} },
  getDelivery: { who: "member", ids: { "params.deliveryId": 404 } },
  receive: { who: keepers, ids: { "params.deliveryId": 404, "body.locationId": 404 } },

  listContainers: { who: "member", ids: { "query.location": 200, "query.product": 200 } },
  getContainer: { who: "member", ids: { "params.containerId": 404 } },
  openContainer: { who: keepers, ids: { "params.containerId": 404 } },
  move: {
    who: keepers,
    ids: { "body.containerId": 404, "body.fromLocationId": 404, "body.toLocationId": 404 },
  },
  reverseMovement: { who: keepers, ids: { "params.movementId": 404 } },
  listBalances: { who: "member", ids: { "query.lot": 200, "query.location": 200 } },

  listExcursions: { who: "member", ids: {} },
  openExcursion: { who: keepers, ids: { "body.locationId": 404 } },
  resolveExcursion: { who: ["dentist", "owner"], ids: { "params.excursionId": 404 } },
  getProductStock: { who: "member", ids: { "params.productId": 404 } },
  setReorderPoint: { who: keepers, ids: { "params.productId": 404 } },
  listLights: { who: "member", ids: {} },
  getLight: { who: "member", ids: { "params.lightId": 404 } },
  addLight: { who: keepers, ids: { "body.locationId": 404 } },
  changeLight: { who: keepers, ids: { "params.lightId": 404, "body.locationId": 404 } },
  addLightReading: {
    who: keepers,
    ids: { "params.lightId": 404, "body.replacesId": 404 },
  },

  listTrays: { who: "member", ids: {} },
  planTray: {
    who: keepers,
    ids: { "body.techniqueId": 404, "body.locationId": 404, "body.templateId": 404 },
  },
  listTemplates: { who: "member", ids: {} },
  addTemplate: {
    who: keepers,
    ids: {
      "body.techniqueId": 404,
      "body.locationId": 404,
      "body.products.0.productIds.0": 404,
    },
  },
  changeTemplate: {
    who: keepers,
    ids: {
      "params.templateId": 404,
      "body.techniqueId": 404,
      "body.locationId": 404,
      "body.products.0.productIds.0": 404,
    },
  },
  removeTemplate: { who: keepers, ids: { "params.templateId": 404 } },
  listVisits: { who: "member", ids: {} },
  readAppointments: { who: keepers, ids: {} },
  // What is not this practice's is refused line by line.
  planTrays: {
    who: keepers,
    ids: { "body.visits.0.techniqueId": 200, "body.visits.0.locationId": 200 },
  },
  changeTray: {
    who: keepers,
    ids: { "params.trayId": 404, "body.techniqueId": 404, "body.locationId": 404 },
  },
  getTray: { who: "member", ids: { "params.trayId": 404 } },
  scanIntoTray: { who: clinical, ids: { "params.trayId": 404 } },
  removeFromTray: { who: clinical, ids: { "params.trayId": 404, "params.itemId": 404 } },
  getTrayReturns: { who: "member", ids: { "params.trayId": 404 } },
  getDowntimeSheet: { who: "member", ids: {} },
  clearTray: { who: clinical, ids: { "params.trayId": 404, "body.usedUp.0": 409 } },
  overrideFinding: { who: ["dentist"], ids: { "params.trayId": 404 } },

  changeAllergies: { who: keepers, ids: { "params.patientId": 404 } },

  startRecord: { who: ["dentist"], ids: { "params.trayId": 404, "body.seals.0.sealId": 404 } },
  listRecords: { who: "member", ids: { "query.after": 200 } },
  getRecord: { who: "member", ids: { "params.recordId": 404 } },
  getRecordDocument: { who: "member", ids: { "params.recordId": 404 } },
  getRecordFhir: { who: "member", ids: { "params.recordId": 404 } },
  getMaterialCard: { who: "member", ids: { "params.recordId": 404 } },
  addRecordEvent: { who: clinical, ids: { "params.recordId": 404, "body.productId": 404 } },
  swapContainer: { who: clinical, ids: { "params.recordId": 404, "body.replaces": 409 } },
  signRecord: { who: ["dentist"], ids: { "params.recordId": 404 } },
  amendRecord: {
    who: ["dentist"],
    ids: {
      "params.recordId": 404,
      "body.leaveOut.materials.0": 422,
      "body.add.0.containerId": 404,
    },
  },

  listWaiting: { who: "member", ids: { "query.after": 200 } },
  changeWaiting: { who: keepers, ids: { "params.sealId": 404 } },
  getTraySeals: { who: "member", ids: { "params.trayId": 404 } },

  traceStock: { who: "member", ids: {} },
  tracePatient: { who: "member", ids: {} },
  listWithdrawals: { who: "member", ids: {} },
  openWithdrawal: { who: desk, ids: { "body.scope.0.productId": 404 } },
  getWithdrawal: { who: "member", ids: { "params.withdrawalId": 404 } },
  segregate: { who: keepers, ids: { "params.withdrawalId": 404 } },
  closeWithdrawal: { who: desk, ids: { "params.withdrawalId": 404 } },

  makeLabels: { who: keepers, ids: { "body.subjects.0.id": 404, "body.reprintOf": 404 } },
  listLabelRuns: { who: "member", ids: {} },
  getLabelRun: { who: "member", ids: { "params.runId": 404 } },
  getLabelDocument: { who: "member", ids: { "params.runId": 404, "query.sheet": 404 } },
  previewLabel: { who: "member", ids: { "query.id": 404 } },
  listSheets: { who: "member", ids: {} },
  addSheet: { who: desk, ids: {} },
  changeSheet: { who: desk, ids: { "params.sheetId": 404 } },
  removeSheet: { who: desk, ids: { "params.sheetId": 404 } },
  getSheetTest: { who: "member", ids: { "query.sheet": 404 } },
  listPrinters: { who: "member", ids: {} },
  addPrinter: { who: desk, ids: {} },
  changePrinter: { who: desk, ids: { "params.printerId": 404 } },
  removePrinter: { who: desk, ids: { "params.printerId": 404 } },
  testPrinter: { who: keepers, ids: { "params.printerId": 404 } },
  printRun: { who: keepers, ids: { "params.printerId": 404, "body.runId": 404 } },
  getScannerSheet: { who: "member", ids: {} },

  listen: { who: "member", ids: {} },
  listVerdictChanges: { who: "member", ids: {} },
  getCheckStatistics: { who: "member", ids: {} },
  getToday: { who: "member", ids: {} },
  listAudit: { who: desk, ids: {} },
  verifyAudit: { who: desk, ids: {} },
};
