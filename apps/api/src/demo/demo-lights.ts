import demo from "../../../../shared/demo-practice.json" with { type: "json" };
import { LightsService } from "../lights/lights.service.ts";
import { PracticeService } from "../practice/practice.service.ts";
import { callAs, momentOf, type DemoScene } from "./demo-scene.ts";

/** Fictional curing lights in two rooms, read for months: one holds, one has weakened. */
export async function readLights(scene: DemoScene): Promise<void> {
  const lights = scene.app.get(LightsService);
  const first = scene.places.get("operatory")!;
  const second = await addOperatory(scene);
  for (const { operatory, readings, modes, ...facts } of demo.lights) {
    const who = { signInName: "assistant", at: momentOf(scene, -101, 9) };
    const locationId = operatory === demo.secondOperatory ? second : first;
    const withPhases = modes.map((mode) => ({ phases: [], ...mode }));
    const body = { ...facts, locationId, modes: withPhases };
    const { id: lightId } = await lights.addLight(callAs<"addLight">(scene, who, { body }));
    for (const { days, ...reading } of readings) {
      const read = { signInName: "assistant", at: momentOf(scene, days, 8) };
      const told = { ...reading, radiometer: "Beam Meter (fictional)", note: "" };
      const given = { params: { lightId }, body: told };
      await lights.addLightReading(callAs<"addLightReading">(scene, read, given));
    }
  }
}

async function addOperatory(scene: DemoScene): Promise<string> {
  const who = { signInName: "office", at: momentOf(scene, -101, 8) };
  const body = { name: demo.secondOperatory, kind: "operatory" } as const;
  const practice = scene.app.get(PracticeService);
  return (await practice.addLocation(callAs<"addLocation">(scene, who, { body }))).id;
}
