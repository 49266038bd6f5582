import { Controller, Inject } from "@nestjs/common";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { LiveService } from "./live.service.ts";

@Controller()
export class LiveController {
  constructor(@Inject(LiveService) private readonly live: LiveService) {}

  @Operation("listen")
  listen(@Checked() call: Call<"listen">) {
    return this.live.listen(call);
  }

  @Operation("listVerdictChanges")
  listVerdictChanges(@Checked() call: Call<"listVerdictChanges">) {
    return this.live.listVerdictChanges(call);
  }

  @Operation("getCheckStatistics")
  getCheckStatistics(@Checked() call: Call<"getCheckStatistics">) {
    return this.live.getCheckStatistics(call);
  }
}
