/**
 * The schemas of every operation in `routes.ts`: what goes in, what comes out, and the problems it
 * answers with besides those that every operation shares. The server validates with them, the
 * OpenAPI document is made from them, and the web client takes their types.
 */
import type { z } from "zod";
import * as catalogue from "./catalogue.ts";
import * as overview from "./overview.ts";
import * as people from "./people.ts";
import type { ProblemCode } from "./problem-codes.ts";
import * as records from "./records.ts";
import type { RouteName, routes } from "./routes.ts";
import * as stock from "./stock.ts";
import * as trays from "./trays.ts";
import * as withdrawals from "./withdrawals.ts";

export interface Operation {
  tag: string;
  summary: string;
  query?: z.ZodType;
  body?: z.ZodType;
  answer: z.ZodType;
  /** 201 where something comes into being, else 200. */
  status: 200 | 201;
  problems: readonly ProblemCode[];
}

const get = { status: 200, problems: [] } as const;
const getOne = { status: 200, problems: ["not-found"] } as const;

export const operations = {
  getHealth: { ...get, tag: "system", summary: "Is the server ready?", answer: people.Health },
  getSetUp: {
    ...get,
    tag: "system",
    summary: "Does it wait for an owner?",
    answer: people.SetUpState,
  },
  setUp: {
    tag: "system",
    summary: "Make the first practice and its owner, with the code from the console",
    body: people.SetUp,
    answer: people.SessionView,
    status: 201,
    problems: ["already-set-up", "wrong-set-up-code"],
  },
  signIn: {
    tag: "people",
    summary: "Sign in with name and password",
    body: people.SignIn,
    answer: people.SessionView,
    status: 201,
    problems: ["wrong-credentials", "locked-out", "demo-on-loopback-only"],
  },
  switchPerson: {
    tag: "people",
    summary: "Take over a registered tablet with a PIN",
    body: people.SwitchPerson,
    answer: people.SessionView,
    status: 201,
    problems: ["wrong-credentials", "locked-out", "demo-on-loopback-only"],
  },
  listDevicePeople: {
    ...get,
    tag: "people",
    summary: "Who may take over this tablet",
    answer: people.DevicePeople,
  },
  getSession: { ...get, tag: "people", summary: "Who is signed in", answer: people.SessionView },
  signOut: { ...get, tag: "people", summary: "Sign out", answer: people.Done },
  setPin: {
    tag: "people",
    summary: "Set one's own PIN",
    body: people.SetPin,
    answer: people.Done,
    status: 200,
    problems: ["wrong-credentials", "locked-out"],
  },
  listPeople: { ...get, tag: "people", summary: "People of the practice", answer: people.People },
  addPerson: {
    tag: "people",
    summary: "Add a person",
    body: people.AddPerson,
    answer: people.PersonView,
    status: 201,
    problems: ["name-taken"],
  },
  listDevices: { ...get, tag: "people", summary: "Registered tablets", answer: people.Devices },
  registerDevice: {
    tag: "people",
    summary: "Register this tablet, so that people switch on it by PIN",
    body: people.RegisterDevice,
    answer: people.DeviceView,
    status: 201,
    problems: [],
  },
  revokeDevice: {
    ...getOne,
    tag: "people",
    summary: "Take a tablet's registration away",
    answer: people.Done,
  },
  listLocations: { ...get, tag: "stock", summary: "Places", answer: people.Locations },
  addLocation: {
    tag: "stock",
    summary: "Add a place",
    body: people.AddLocation,
    answer: people.LocationView,
    status: 201,
    problems: ["name-taken"],
  },

  listProducts: {
    ...get,
    tag: "catalogue",
    summary: "Products",
    query: catalogue.ProductQuery,
    answer: catalogue.Products,
  },
  getProduct: {
    ...getOne,
    tag: "catalogue",
    summary: "One product",
    answer: catalogue.ProductView,
  },
  addProduct: {
    tag: "catalogue",
    summary: "Register a product",
    body: catalogue.AddProduct,
    answer: catalogue.ProductView,
    status: 201,
    problems: ["name-taken", "identifier-taken", "not-found"],
  },
  changeProduct: {
    tag: "catalogue",
    summary: "Change a product; it is unconfirmed until a dentist compares it again",
    body: catalogue.ChangeProduct,
    answer: catalogue.ProductView,
    status: 200,
    problems: ["not-found", "name-taken", "product-changed"],
  },
  confirmProduct: {
    tag: "catalogue",
    summary: "Confirm an entry against its instructions for use",
    body: catalogue.ConfirmProduct,
    answer: catalogue.ProductView,
    status: 200,
    problems: ["not-found", "product-changed"],
  },
  addIdentifier: {
    tag: "catalogue",
    summary: "Add a device identifier to a product",
    body: catalogue.Identifier,
    answer: catalogue.ProductView,
    status: 201,
    problems: ["not-found", "identifier-taken"],
  },
  listSystems: { ...get, tag: "catalogue", summary: "Bonding systems", answer: catalogue.Systems },
  addSystem: {
    tag: "catalogue",
    summary: "Register a bonding system",
    body: catalogue.AddSystem,
    answer: catalogue.System,
    status: 201,
    problems: ["name-taken"],
  },
  listTechniques: { ...get, tag: "catalogue", summary: "Techniques", answer: catalogue.Techniques },

  readScan: {
    ...get,
    tag: "stock",
    summary: "What is this label? Changes nothing",
    body: stock.ReadScan,
    answer: stock.ScanAnswer,
  },
  listDeliveries: {
    ...get,
    tag: "stock",
    summary: "Deliveries, newest first",
    answer: stock.Deliveries,
  },
  openDelivery: {
    tag: "stock",
    summary: "Begin a delivery",
    body: stock.OpenDelivery,
    answer: stock.DeliveryView,
    status: 201,
    problems: [],
  },
  getDelivery: { ...getOne, tag: "stock", summary: "One delivery", answer: stock.DeliveryView },
  receive: {
    tag: "stock",
    summary: "Receive a scanned pack: each bottle or syringe becomes a container",
    body: stock.Receive,
    answer: stock.DeliveryLineView,
    status: 201,
    problems: [
      "not-found",
      "label-unreadable",
      "label-incomplete",
      "unknown-identifier",
      "expired-delivery",
      "withdrawn-delivery",
      "use-by-conflict",
      "serial-taken",
    ],
  },
  listContainers: {
    ...get,
    tag: "stock",
    summary: "Containers, those that end first at the top",
    query: stock.ContainerQuery,
    answer: stock.Containers,
  },
  getContainer: {
    ...getOne,
    tag: "stock",
    summary: "The life of one container",
    answer: stock.ContainerStory,
  },
  openContainer: {
    tag: "stock",
    summary: "Open a container: its in-use life starts",
    body: stock.OpenContainer,
    answer: stock.ContainerView,
    status: 200,
    problems: ["not-found", "already-opened", "container-not-there"],
  },
  move: {
    tag: "stock",
    summary: "Move a container, or a quantity of a lot, from one place to another",
    body: stock.Move,
    answer: stock.Moved,
    status: 201,
    problems: ["not-found", "not-enough-stock", "container-not-there"],
  },
  reverseMovement: {
    tag: "stock",
    summary: "Undo a movement by its mirror",
    body: stock.Reverse,
    answer: stock.Moved,
    status: 201,
    problems: [
      "not-found",
      "not-enough-stock",
      "container-not-there",
      "movement-already-reversed",
      "movement-not-reversible",
    ],
  },
  listBalances: {
    ...get,
    tag: "stock",
    summary: "Quantities by lot and place",
    query: stock.BalanceQuery,
    answer: stock.Balances,
  },

  listTrays: {
    ...get,
    tag: "trays",
    summary: "Trays of a day with their verdict",
    query: trays.TrayQuery,
    answer: trays.Trays,
  },
  planTray: {
    tag: "trays",
    summary: "Plan a tray for an appointment",
    body: trays.PlanTray,
    answer: trays.TrayView,
    status: 201,
    problems: ["not-found"],
  },
  getTray: {
    ...getOne,
    tag: "trays",
    summary: "One tray, checked now",
    answer: trays.TrayView,
  },
  scanIntoTray: {
    tag: "trays",
    summary: "Scan a container into a tray. A finding is an answer, not an error",
    body: trays.ScanIntoTray,
    answer: trays.ScannedIntoTray,
    status: 201,
    problems: ["not-found", "label-unreadable", "tray-not-open", "already-on-tray"],
  },
  removeFromTray: {
    tag: "trays",
    summary: "Take a container off the tray",
    answer: trays.TrayView,
    status: 200,
    problems: ["not-found", "tray-not-open"],
  },
  clearTray: {
    tag: "trays",
    summary: "Clear the tray; name what is empty",
    body: trays.ClearTray,
    answer: trays.TrayView,
    status: 200,
    problems: ["not-found", "tray-not-open", "not-on-tray", "record-not-complete"],
  },
  overrideFinding: {
    tag: "trays",
    summary: "Pass a stop, as a dentist, with a reason that stays for ever",
    body: trays.OverrideFinding,
    answer: trays.TrayView,
    status: 201,
    problems: ["not-found", "tray-not-open", "not-overridable", "already-overridden"],
  },

  startRecord: {
    tag: "records",
    summary: "Start priming: the check is made again at this moment",
    body: records.StartRecord,
    answer: records.RecordView,
    status: 201,
    problems: ["not-found", "verdict-stops", "tray-not-open"],
  },
  listRecords: {
    ...get,
    tag: "records",
    summary: "Records, newest first",
    query: records.RecordQuery,
    answer: records.Records,
  },
  getRecord: { ...getOne, tag: "records", summary: "One record", answer: records.RecordView },
  addRecordEvent: {
    tag: "records",
    summary: "Write what happens at a step",
    body: records.AddRecordEvent,
    answer: records.RecordView,
    status: 201,
    problems: ["not-found", "record-signed", "verdict-stops"],
  },
  swapContainer: {
    tag: "records",
    summary: "Go on with another container; both lots stay on the step",
    body: records.SwapContainer,
    answer: records.RecordView,
    status: 201,
    problems: [
      "not-found",
      "record-signed",
      "label-unreadable",
      "already-on-tray",
      "not-on-tray",
      "verdict-stops",
    ],
  },
  signRecord: {
    tag: "records",
    summary: "Sign: the record is sealed and never changes",
    body: records.SignRecord,
    answer: records.RecordView,
    status: 200,
    problems: [
      "not-found",
      "record-signed",
      "record-not-complete",
      "wrong-credentials",
      "locked-out",
    ],
  },

  traceStock: {
    ...getOne,
    tag: "withdrawals",
    summary: "Where is this lot, and who has it?",
    query: withdrawals.TraceQuery,
    answer: withdrawals.Trace,
  },
  tracePatient: {
    ...getOne,
    tag: "withdrawals",
    summary: "Which lots has this patient?",
    query: withdrawals.PatientQuery,
    answer: withdrawals.PatientTrace,
  },
  listWithdrawals: {
    ...get,
    tag: "withdrawals",
    summary: "Withdrawals, newest first",
    answer: withdrawals.Withdrawals,
  },
  openWithdrawal: {
    tag: "withdrawals",
    summary: "Enter a notice: from now on nothing it covers passes a check",
    body: withdrawals.OpenWithdrawal,
    answer: withdrawals.WithdrawalView,
    status: 201,
    problems: ["not-found", "name-taken"],
  },
  getWithdrawal: {
    ...getOne,
    tag: "withdrawals",
    summary: "One withdrawal with its trace",
    answer: withdrawals.WithdrawalView,
  },
  segregate: {
    tag: "withdrawals",
    summary: "Move all that it covers here into quarantine",
    answer: withdrawals.Segregated,
    status: 200,
    problems: ["not-found", "withdrawal-closed"],
  },
  closeWithdrawal: {
    tag: "withdrawals",
    summary: "Close the case with a summary",
    body: withdrawals.CloseWithdrawal,
    answer: withdrawals.WithdrawalView,
    status: 200,
    problems: ["not-found", "withdrawal-closed"],
  },

  getToday: { ...get, tag: "overview", summary: "What needs somebody now", answer: overview.Today },
  listAudit: {
    ...get,
    tag: "overview",
    summary: "The audit trail, newest first",
    query: overview.AuditQuery,
    answer: overview.Audit,
  },
  verifyAudit: {
    ...get,
    tag: "overview",
    summary: "Check the audit chain, the ledger and every signed record",
    answer: overview.Verification,
  },
} as const satisfies Record<RouteName, Operation>;

type Operations = typeof operations;
type PathParameters<P extends string> = P extends `${string}:${infer Name}/${infer Rest}`
  ? Name | PathParameters<`/${Rest}`>
  : P extends `${string}:${infer Name}`
    ? Name
    : never;

/** The parameters in an operation's path. */
export type ParamsOf<N extends RouteName> = Record<
  PathParameters<(typeof routes)[N]["path"]>,
  string
>;
/** A body as the client writes it (defaults may be left out). */
export type BodyOf<N extends RouteName> = Operations[N] extends { body: infer B extends z.ZodType }
  ? z.input<B>
  : undefined;
/** A query as the client writes it. */
export type QueryOf<N extends RouteName> = Operations[N] extends {
  query: infer Q extends z.ZodType;
}
  ? z.input<Q>
  : undefined;
export type AnswerOf<N extends RouteName> = z.output<Operations[N]["answer"]>;
