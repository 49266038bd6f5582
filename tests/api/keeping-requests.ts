/** Good requests for storage, stock, light and techniques; a part of `every-operation.ts`. */
import type { keepingOperations } from "#contracts/keeping-operations";
import type { BodyOf } from "#contracts/operations";
import type { Maker } from "../helpers/make.ts";
import type { Preparing } from "./every-operation.ts";

const excursion = (make: Maker): BodyOf<"openExcursion"> => ({
  locationId: make.places.refrigerator,
  from: "2026-06-14T20:00:00.000Z",
  to: "2026-06-15T04:00:00.000Z",
  lowestC: 5.5,
  highestC: 14.5,
  note: make.name("door left open"),
});
const openedExcursion = async (make: Maker) => {
  const { ok } = await make.practice.office.call("openExcursion", { body: excursion(make) });
  return { excursionId: ok.id };
};

const lightFacts = (make: Maker) => ({
  name: make.name("Light"),
  serial: "fictional 7",
  tipTenthMm: 80,
  locationId: make.places.operatory,
});
const lightInput = (make: Maker): BodyOf<"addLight"> => ({
  ...lightFacts(make),
  modes: [
    { name: "Standard" },
    { name: "Soft start", phases: [{ seconds: 5, fromPercent: 10, toPercent: 100 }] },
  ],
});
const addedLight = async (make: Maker) =>
  (await make.practice.office.call("addLight", { body: lightInput(make) })).ok;
const readingOf = (irradianceMwCm2: number) => ({
  mode: "Standard",
  distanceTenthMm: 40,
  irradianceMwCm2,
  radiometer: "fictional radiometer",
  note: "cleaned before",
  readAt: "2026-06-15T06:00:00.000Z",
});

const techniqueInput = (make: Maker) => ({
  name: make.name("Technique"),
  steps: [
    {
      key: "coat",
      name: "Resin coat",
      accepts: ["flowable" as const],
      required: true,
      solventsAllowed: ["ethanol" as const],
      solventNeeded: "ethanol" as const,
      etchesDentin: false,
      applicationSeconds: 5,
      airDrySeconds: 5,
      cureSeconds: 20,
      when: { modes: ["self-etch" as const], provisional: "resin" as const, undercut: false },
      lightDistanceTenthMm: 40,
      thicknessTenthMm: { min: 3, max: 8 },
      minFillerPercent: 60.5,
      minModulusGpa: 5.5,
    },
  ],
});
const addedTechnique = async (make: Maker) => {
  const body = { ...techniqueInput(make), visit: "sealing" as const };
  return { techniqueId: (await make.practice.owner.call("addTechnique", { body })).ok.id };
};

export const keepingRequests: Pick<Preparing, keyof typeof keepingOperations> = {
  listExcursions: async () => ({}),
  openExcursion: async (make) => ({ body: excursion(make) }),
  resolveExcursion: async (make) => ({
    params: await openedExcursion(make),
    body: { resolution: make.name("looked into") },
  }),
  getProductStock: async (make) => ({
    params: { productId: (await make.usualProduct("bonding-cement")).id },
  }),
  setReorderPoint: async (make) => ({
    params: { productId: (await make.product("bonding-cement")).id },
    body: { reorderUses: 12 },
  }),
  listLights: async () => ({}),
  getLight: async (make) => ({ params: { lightId: (await addedLight(make)).id } }),
  addLight: async (make) => ({ body: lightInput(make) }),
  changeLight: async (make) => ({
    params: { lightId: (await addedLight(make)).id },
    body: { ...lightFacts(make), retired: true },
  }),
  addLightReading: async (make) => {
    const { id: lightId } = await addedLight(make);
    const given = { params: { lightId }, body: readingOf(900) };
    const { readings } = (await make.practice.office.call("addLightReading", given)).ok;
    return { params: { lightId }, body: { ...readingOf(905), replacesId: readings[0]!.id } };
  },
  getTechnique: async (make) => ({ params: await addedTechnique(make) }),
  addTechnique: async (make) => ({
    body: {
      ...techniqueInput(make),
      visit: "sealing",
      madeFrom: make.techniques["seal-self-etch-two-step"]!,
    },
  }),
  changeTechnique: async (make) => ({
    params: await addedTechnique(make),
    body: techniqueInput(make),
  }),
  retireTechnique: async (make) => ({ params: await addedTechnique(make), body: {} }),
  confirmTechnique: async (make) => ({ params: await addedTechnique(make), body: {} }),
};
