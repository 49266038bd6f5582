import { Controller, Inject } from "@nestjs/common";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { LightsService } from "./lights.service.ts";

@Controller()
export class LightsController {
  constructor(@Inject(LightsService) private readonly lights: LightsService) {}

  @Operation("listLights")
  listLights(@Checked() call: Call<"listLights">) {
    return this.lights.listLights(call);
  }

  @Operation("getLight")
  getLight(@Checked() call: Call<"getLight">) {
    return this.lights.getLight(call);
  }

  @Operation("addLight")
  addLight(@Checked() call: Call<"addLight">) {
    return this.lights.addLight(call);
  }

  @Operation("changeLight")
  changeLight(@Checked() call: Call<"changeLight">) {
    return this.lights.changeLight(call);
  }

  @Operation("addLightReading")
  addLightReading(@Checked() call: Call<"addLightReading">) {
    return this.lights.addLightReading(call);
  }
}
