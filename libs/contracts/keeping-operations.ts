/** Storage, stock and light: what the check before priming asks besides the bottle itself. */
import * as keeping from "./keeping.ts";
import * as lights from "./lights.ts";
import * as techniques from "./techniques.ts";
import { get, getOne, type Operation } from "./operation.ts";

export const keepingOperations = {
  getTechnique: {
    ...getOne,
    tag: "techniques",
    summary: "One version of a technique, and which others there are",
    answer: techniques.TechniqueDetail,
  },
  addTechnique: {
    tag: "techniques",
    summary: "Add a technique, new or copied",
    body: techniques.AddTechnique,
    answer: techniques.TechniqueDetail,
    status: 201,
    problems: ["not-found"],
  },
  changeTechnique: {
    tag: "techniques",
    summary: "Make a new version; trays and records keep the one they were planned with",
    body: techniques.ChangeTechnique,
    answer: techniques.TechniqueDetail,
    status: 201,
    problems: ["not-found", "technique-is-starter", "product-changed"],
  },
  retireTechnique: {
    tag: "techniques",
    summary: "Take a technique out of use for new trays",
    body: techniques.ActOnTechnique,
    answer: techniques.TechniqueDetail,
    status: 200,
    problems: ["not-found", "product-changed"],
  },
  confirmTechnique: {
    tag: "techniques",
    summary: "Confirm, as a dentist, that it fits the instructions for use",
    body: techniques.ActOnTechnique,
    answer: techniques.TechniqueDetail,
    status: 200,
    problems: ["not-found", "technique-is-starter", "product-changed"],
  },
  listExcursions: {
    ...get,
    tag: "keeping",
    summary: "Times at which a place was too warm or too cold, unsettled ones first",
    answer: keeping.Excursions,
  },
  openExcursion: {
    tag: "keeping",
    summary: "Enter an excursion: what stood there is marked until it is settled",
    body: keeping.OpenExcursion,
    answer: keeping.ExcursionView,
    status: 201,
    problems: ["not-found"],
  },
  resolveExcursion: {
    tag: "keeping",
    summary: "Settle an excursion, once, saying what it means",
    body: keeping.ResolveExcursion,
    answer: keeping.ExcursionView,
    status: 200,
    problems: ["not-found", "excursion-settled"],
  },
  getProductStock: {
    ...getOne,
    tag: "keeping",
    summary: "Uses left of a product, and below how many it is ordered again",
    answer: keeping.ProductStock,
  },
  setReorderPoint: {
    tag: "keeping",
    summary: "Say below how many uses a product is ordered again",
    body: keeping.SetReorderPoint,
    answer: keeping.ProductStock,
    status: 200,
    problems: ["not-found"],
  },
  listLights: { ...get, tag: "lights", summary: "Curing lights", answer: lights.Lights },
  getLight: {
    ...getOne,
    tag: "lights",
    summary: "One curing light with all its readings",
    answer: lights.LightView,
  },
  addLight: {
    tag: "lights",
    summary: "Add a curing light with its modes",
    body: lights.AddLight,
    answer: lights.LightView,
    status: 201,
    problems: ["not-found", "name-taken"],
  },
  changeLight: {
    tag: "lights",
    summary: "Change a curing light's name, tip or place, or retire it",
    body: lights.ChangeLight,
    answer: lights.LightView,
    status: 200,
    problems: ["not-found", "name-taken"],
  },
  addLightReading: {
    tag: "lights",
    summary: "Enter what a radiometer read, at the tip or at a distance",
    body: lights.AddLightReading,
    answer: lights.LightView,
    status: 201,
    problems: ["not-found"],
  },
} as const satisfies Record<string, Operation>;
