import { Controller, Inject } from "@nestjs/common";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { WaitingService } from "./waiting.service.ts";

@Controller()
export class WaitingController {
  constructor(@Inject(WaitingService) private readonly waiting: WaitingService) {}

  @Operation("listWaiting")
  listWaiting(@Checked() call: Call<"listWaiting">) {
    return this.waiting.listWaiting(call);
  }

  @Operation("changeWaiting")
  changeWaiting(@Checked() call: Call<"changeWaiting">) {
    return this.waiting.changeWaiting(call);
  }

  @Operation("getTraySeals")
  getTraySeals(@Checked() call: Call<"getTraySeals">) {
    return this.waiting.getTraySeals(call);
  }
}
