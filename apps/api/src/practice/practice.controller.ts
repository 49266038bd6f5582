import { Controller, Inject } from "@nestjs/common";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { CheckSettingsService } from "./check-settings.service.ts";
import { PracticeService } from "./practice.service.ts";

@Controller()
export class PracticeController {
  constructor(
    @Inject(PracticeService) private readonly practice: PracticeService,
    @Inject(CheckSettingsService) private readonly checks: CheckSettingsService,
  ) {}

  @Operation("getHealth")
  getHealth(@Checked() call: Call<"getHealth">) {
    return this.practice.getHealth(call);
  }

  @Operation("getSetUp")
  getSetUp() {
    return this.practice.getSetUp();
  }

  @Operation("setUp")
  setUp(@Checked() call: Call<"setUp">) {
    return this.practice.setUp(call);
  }

  @Operation("listLocations")
  listLocations(@Checked() call: Call<"listLocations">) {
    return this.practice.listLocations(call);
  }

  @Operation("addLocation")
  addLocation(@Checked() call: Call<"addLocation">) {
    return this.practice.addLocation(call);
  }

  @Operation("changeToothNotation")
  changeToothNotation(@Checked() call: Call<"changeToothNotation">) {
    return this.checks.changeToothNotation(call);
  }

  @Operation("getCheckSettings")
  getCheckSettings(@Checked() call: Call<"getCheckSettings">) {
    return this.checks.getCheckSettings(call);
  }

  @Operation("changeCheckSettings")
  changeCheckSettings(@Checked() call: Call<"changeCheckSettings">) {
    return this.checks.changeCheckSettings(call);
  }
}
