import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { computeExitance } from "#domain";
import type { AddLightReading, LightView } from "#contracts/lights";
import { inCommand, inRead, type Tx } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import type { Answer, Call } from "../http/operation.ts";
import { notFound, Problem } from "../http/problem.ts";
import { getCheckSettings } from "../practice/check-settings.store.ts";
import { findLocation } from "../stock/stock.store.ts";
import { lightView } from "./light-view.ts";
import * as store from "./lights.store.ts";

@Injectable()
export class LightsService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  listLights(call: Call<"listLights">): Promise<Answer<"listLights">> {
    return inRead(this.db, call, async (tx) => {
      const settings = await getCheckSettings(tx);
      const rows = await store.listLights(tx);
      return { lights: rows.map((row) => lightView(tx, row, settings)) };
    });
  }

  getLight(call: Call<"getLight">): Promise<LightView> {
    return inRead(this.db, call, (tx) => getLight(tx, call.params.lightId));
  }

  addLight(call: Call<"addLight">): Promise<LightView> {
    return inCommand(this.db, call, async (tx) => {
      await refuseOtherPlace(tx, call.body.locationId);
      const id = newId();
      await store.insertLight(tx, id, call.body);
      tx.audit("light-added", `light:${id}`, call.body);
      return getLight(tx, id);
    });
  }

  changeLight(call: Call<"changeLight">): Promise<LightView> {
    const { lightId: id } = call.params;
    return inCommand(this.db, call, async (tx) => {
      const { name, serial, tipTenthMm, location, retired } = await getLight(tx, id);
      await refuseOtherPlace(tx, call.body.locationId);
      await store.updateLight(tx, id, call.body);
      const before = { name, serial, tipTenthMm, locationId: location?.id ?? null, retired };
      tx.audit("light-changed", `light:${id}`, { before, after: call.body });
      return getLight(tx, id);
    });
  }

  addLightReading(call: Call<"addLightReading">): Promise<LightView> {
    const { lightId } = call.params;
    const readAt = call.body.readAt ?? call.at.toISOString();
    if (Date.parse(readAt) > call.at.getTime()) {
      throw new Problem("invalid-request", "A reading is not made in the future.", {
        errors: [{ path: "/body/readAt", message: "not later than now" }],
      });
    }
    return inCommand(this.db, call, async (tx) => {
      const light = await getLight(tx, lightId);
      refuseOtherReading(light, call.body);
      const { mode, distanceTenthMm, radiometer, note, replacesId = null } = call.body;
      const irradianceMwCm2 = irradianceOf(light, call.body);
      const reading = { mode, distanceTenthMm, irradianceMwCm2, radiometer, note, readAt };
      await store.insertReading(tx, { ...reading, id: newId(), lightId, replacesId });
      tx.audit("light-read", `light:${lightId}`, { ...reading, replacesId });
      return getLight(tx, lightId);
    });
  }
}

async function getLight(tx: Tx, id: string): Promise<LightView> {
  const row = await store.findLight(tx, id);
  if (!row) throw notFound("curing light");
  return lightView(tx, row, await getCheckSettings(tx));
}

async function refuseOtherPlace(tx: Tx, locationId: string | null): Promise<void> {
  if (locationId === null) return;
  if ((await findLocation(tx, locationId))?.kind !== "operatory") throw notFound("operatory");
}

function refuseOtherReading(light: LightView, told: AddLightReading): void {
  if (!light.modes.some(({ name }) => name === told.mode)) throw notFound(`mode '${told.mode}'`);
  if (told.replacesId === undefined) return;
  const wrong = light.readings.find(({ id }) => id === told.replacesId);
  if (!wrong || wrong.replaced) throw notFound("reading that still counts");
}

function irradianceOf(light: LightView, told: AddLightReading): number {
  if (told.irradianceMwCm2 !== undefined) return told.irradianceMwCm2;
  const exitance =
    light.tipTenthMm === null ? null : computeExitance(told.powerMw ?? 0, light.tipTenthMm);
  if (exitance !== null && told.distanceTenthMm === 0) return exitance;
  throw new Problem(
    "invalid-request",
    "A power says what leaves the tip: enter the tip's diameter first, and the reading at 0 mm.",
    { errors: [{ path: "/body/powerMw", message: "at the tip of a known diameter" }] },
  );
}
