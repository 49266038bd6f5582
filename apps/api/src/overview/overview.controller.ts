import { Controller, Inject } from "@nestjs/common";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { OverviewService } from "./overview.service.ts";

@Controller()
export class OverviewController {
  constructor(@Inject(OverviewService) private readonly overview: OverviewService) {}

  @Operation("getToday")
  getToday(@Checked() call: Call<"getToday">) {
    return this.overview.getToday(call);
  }
}
