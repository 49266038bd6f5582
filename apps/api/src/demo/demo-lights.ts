import demo from "../../../../shared/demo-practice.json" with { type: "json" };
import { LightsService } from "../lights/lights.service.ts";
import { callAs, momentOf, type DemoScene } from "./demo-scene.ts";

/** Fictional curing lights with some months of readings: one holds, one has weakened. */
export async function readLights(scene: DemoScene): Promise<void> {
  const lights = scene.app.get(LightsService);
  for (const { inOperatory, readings, modes, ...facts } of demo.lights) {
    const who = { signInName: "assistant", at: momentOf(scene, -101, 9) };
    const locationId = inOperatory ? scene.places.get("operatory")! : null;
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
