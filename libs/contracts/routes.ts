/**
 * Every operation of the API: method, path under `/api/v1`, and who may use it. Plain constants, no
 * zod: server, web client and tests all read this one table. Schemas stand in `operations.ts`.
 *
 * `roles`: "anyone" needs no session; "member" is any signed-in person; else one of the roles named.
 */
import type { Role } from "#domain";

export interface Route {
  method: "GET" | "POST" | "PUT" | "DELETE";
  path: string;
  roles: "anyone" | "member" | readonly Role[];
}

const clinical = ["assistant", "dentist"] as const;
const keepers = ["assistant", "dentist", "office", "owner"] as const;
const desk = ["office", "owner"] as const;
const dentist = ["dentist"] as const;
const owner = ["owner"] as const;
const deciders = ["dentist", "owner"] as const;

export const routes = {
  getHealth: { method: "GET", path: "/health", roles: "anyone" },
  getSetUp: { method: "GET", path: "/set-up", roles: "anyone" },
  setUp: { method: "POST", path: "/set-up", roles: "anyone" },
  signIn: { method: "POST", path: "/session", roles: "anyone" },
  switchPerson: { method: "POST", path: "/session/pin", roles: "anyone" },
  listDevicePeople: { method: "GET", path: "/session/people", roles: "anyone" },
  getSession: { method: "GET", path: "/session", roles: "member" },
  signOut: { method: "DELETE", path: "/session", roles: "member" },
  setPin: { method: "PUT", path: "/session/pin", roles: "member" },

  listPeople: { method: "GET", path: "/people", roles: desk },
  addPerson: { method: "POST", path: "/people", roles: owner },
  listDevices: { method: "GET", path: "/devices", roles: desk },
  registerDevice: { method: "POST", path: "/devices", roles: desk },
  revokeDevice: { method: "DELETE", path: "/devices/:deviceId", roles: desk },
  getScannerProfile: { method: "GET", path: "/devices/this/scanner", roles: "member" },
  saveScannerProfile: { method: "PUT", path: "/devices/this/scanner", roles: "member" },
  listLocations: { method: "GET", path: "/locations", roles: "member" },
  addLocation: { method: "POST", path: "/locations", roles: desk },
  changeToothNotation: {
    method: "PUT",
    path: "/practice/tooth-notation",
    roles: ["dentist", "office", "owner"],
  },
  getCheckSettings: { method: "GET", path: "/check-settings", roles: "member" },
  changeCheckSettings: { method: "PUT", path: "/check-settings", roles: deciders },

  listProducts: { method: "GET", path: "/products", roles: "member" },
  getProduct: { method: "GET", path: "/products/:productId", roles: "member" },
  addProduct: { method: "POST", path: "/products", roles: keepers },
  changeProduct: { method: "PUT", path: "/products/:productId", roles: keepers },
  confirmProduct: { method: "POST", path: "/products/:productId/confirmation", roles: dentist },
  addIdentifier: { method: "POST", path: "/products/:productId/identifiers", roles: keepers },
  listSystems: { method: "GET", path: "/systems", roles: "member" },
  addSystem: { method: "POST", path: "/systems", roles: keepers },
  listTechniques: { method: "GET", path: "/techniques", roles: "member" },

  getTechnique: { method: "GET", path: "/techniques/:techniqueId", roles: "member" },
  addTechnique: { method: "POST", path: "/techniques", roles: deciders },
  changeTechnique: {
    method: "POST",
    path: "/techniques/:techniqueId/versions",
    roles: deciders,
  },
  retireTechnique: {
    method: "POST",
    path: "/techniques/:techniqueId/retirement",
    roles: deciders,
  },
  confirmTechnique: {
    method: "POST",
    path: "/techniques/:techniqueId/confirmation",
    roles: dentist,
  },

  readScan: { method: "POST", path: "/scans", roles: "member" },
  listDeliveries: { method: "GET", path: "/deliveries", roles: "member" },
  openDelivery: { method: "POST", path: "/deliveries", roles: keepers },
  getDelivery: { method: "GET", path: "/deliveries/:deliveryId", roles: "member" },
  receive: { method: "POST", path: "/deliveries/:deliveryId/lines", roles: keepers },

  listContainers: { method: "GET", path: "/containers", roles: "member" },
  getContainer: { method: "GET", path: "/containers/:containerId", roles: "member" },
  openContainer: { method: "POST", path: "/containers/:containerId/opening", roles: keepers },
  move: { method: "POST", path: "/movements", roles: keepers },
  reverseMovement: { method: "POST", path: "/movements/:movementId/reversal", roles: keepers },
  listBalances: { method: "GET", path: "/balances", roles: "member" },

  listExcursions: { method: "GET", path: "/excursions", roles: "member" },
  openExcursion: { method: "POST", path: "/excursions", roles: keepers },
  resolveExcursion: {
    method: "POST",
    path: "/excursions/:excursionId/resolution",
    roles: deciders,
  },
  getProductStock: { method: "GET", path: "/products/:productId/stock", roles: "member" },
  setReorderPoint: { method: "PUT", path: "/products/:productId/reorder-point", roles: keepers },
  listLights: { method: "GET", path: "/lights", roles: "member" },
  getLight: { method: "GET", path: "/lights/:lightId", roles: "member" },
  addLight: { method: "POST", path: "/lights", roles: keepers },
  changeLight: { method: "PUT", path: "/lights/:lightId", roles: keepers },
  addLightReading: { method: "POST", path: "/lights/:lightId/readings", roles: keepers },

  listTrays: { method: "GET", path: "/trays", roles: "member" },
  planTray: { method: "POST", path: "/trays", roles: keepers },
  listTemplates: { method: "GET", path: "/tray-templates", roles: "member" },
  addTemplate: { method: "POST", path: "/tray-templates", roles: keepers },
  changeTemplate: { method: "PUT", path: "/tray-templates/:templateId", roles: keepers },
  removeTemplate: { method: "DELETE", path: "/tray-templates/:templateId", roles: keepers },
  listVisits: { method: "GET", path: "/visits", roles: "member" },
  readAppointments: { method: "POST", path: "/appointment-lists", roles: keepers },
  planTrays: { method: "POST", path: "/trays/batch", roles: keepers },
  changeTray: { method: "PUT", path: "/trays/:trayId", roles: keepers },
  getTray: { method: "GET", path: "/trays/:trayId", roles: "member" },
  scanIntoTray: { method: "POST", path: "/trays/:trayId/items", roles: clinical },
  removeFromTray: { method: "DELETE", path: "/trays/:trayId/items/:itemId", roles: clinical },
  getTrayReturns: { method: "GET", path: "/trays/:trayId/returns", roles: "member" },
  getDowntimeSheet: { method: "GET", path: "/downtime-sheet", roles: "member" },
  clearTray: { method: "POST", path: "/trays/:trayId/clearing", roles: clinical },
  overrideFinding: { method: "POST", path: "/trays/:trayId/overrides", roles: dentist },
  changeAllergies: { method: "PUT", path: "/patients/:patientId/allergies", roles: keepers },

  startRecord: { method: "POST", path: "/trays/:trayId/record", roles: dentist },
  listRecords: { method: "GET", path: "/records", roles: "member" },
  getRecord: { method: "GET", path: "/records/:recordId", roles: "member" },
  getRecordDocument: {
    method: "GET",
    path: "/records/:recordId/document",
    roles: "member",
  },
  getRecordFhir: { method: "GET", path: "/records/:recordId/fhir", roles: "member" },
  getMaterialCard: { method: "GET", path: "/records/:recordId/card", roles: "member" },
  addRecordEvent: { method: "POST", path: "/records/:recordId/events", roles: clinical },
  swapContainer: { method: "POST", path: "/records/:recordId/swaps", roles: clinical },
  signRecord: { method: "POST", path: "/records/:recordId/signature", roles: dentist },

  amendRecord: { method: "POST", path: "/records/:recordId/amendments", roles: dentist },
  listWaiting: { method: "GET", path: "/waiting-seals", roles: "member" },
  changeWaiting: { method: "POST", path: "/waiting-seals/:sealId/changes", roles: keepers },
  getTraySeals: { method: "GET", path: "/trays/:trayId/seals", roles: "member" },

  traceStock: { method: "GET", path: "/trace", roles: "member" },
  tracePatient: { method: "GET", path: "/trace/patient", roles: "member" },
  listWithdrawals: { method: "GET", path: "/withdrawals", roles: "member" },
  openWithdrawal: { method: "POST", path: "/withdrawals", roles: desk },
  getWithdrawal: { method: "GET", path: "/withdrawals/:withdrawalId", roles: "member" },
  segregate: { method: "POST", path: "/withdrawals/:withdrawalId/segregation", roles: keepers },
  closeWithdrawal: { method: "POST", path: "/withdrawals/:withdrawalId/closing", roles: desk },

  makeLabels: { method: "POST", path: "/label-runs", roles: keepers },
  listLabelRuns: { method: "GET", path: "/label-runs", roles: "member" },
  getLabelRun: { method: "GET", path: "/label-runs/:runId", roles: "member" },
  getLabelDocument: { method: "GET", path: "/label-runs/:runId/document", roles: "member" },
  previewLabel: { method: "GET", path: "/label-preview", roles: "member" },
  listSheets: { method: "GET", path: "/label-sheets", roles: "member" },
  addSheet: { method: "POST", path: "/label-sheets", roles: desk },
  changeSheet: { method: "PUT", path: "/label-sheets/:sheetId", roles: desk },
  removeSheet: { method: "DELETE", path: "/label-sheets/:sheetId", roles: desk },
  getSheetTest: { method: "GET", path: "/label-sheets/test", roles: "member" },
  listPrinters: { method: "GET", path: "/printers", roles: "member" },
  addPrinter: { method: "POST", path: "/printers", roles: desk },
  changePrinter: { method: "PUT", path: "/printers/:printerId", roles: desk },
  removePrinter: { method: "DELETE", path: "/printers/:printerId", roles: desk },
  testPrinter: { method: "POST", path: "/printers/:printerId/test", roles: keepers },
  printRun: { method: "POST", path: "/printers/:printerId/jobs", roles: keepers },
  getScannerSheet: { method: "GET", path: "/scanner-sheet", roles: "member" },

  listen: { method: "GET", path: "/live", roles: "member" },
  listVerdictChanges: { method: "GET", path: "/verdict-changes", roles: "member" },
  getCheckStatistics: { method: "GET", path: "/check-statistics", roles: "member" },
  getToday: { method: "GET", path: "/today", roles: "member" },
  listAudit: { method: "GET", path: "/audit", roles: desk },
  verifyAudit: { method: "GET", path: "/audit/verification", roles: desk },
} as const satisfies Record<string, Route>;

export type RouteName = keyof typeof routes;
export const apiPrefix = "/api/v1";
