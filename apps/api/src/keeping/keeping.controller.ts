import { Controller, Inject } from "@nestjs/common";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { KeepingService } from "./keeping.service.ts";

@Controller()
export class KeepingController {
  constructor(@Inject(KeepingService) private readonly keeping: KeepingService) {}

  @Operation("listExcursions")
  listExcursions(@Checked() call: Call<"listExcursions">) {
    return this.keeping.listExcursions(call);
  }

  @Operation("openExcursion")
  openExcursion(@Checked() call: Call<"openExcursion">) {
    return this.keeping.openExcursion(call);
  }

  @Operation("resolveExcursion")
  resolveExcursion(@Checked() call: Call<"resolveExcursion">) {
    return this.keeping.resolveExcursion(call);
  }

  @Operation("getProductStock")
  getProductStock(@Checked() call: Call<"getProductStock">) {
    return this.keeping.getProductStock(call);
  }

  @Operation("setReorderPoint")
  setReorderPoint(@Checked() call: Call<"setReorderPoint">) {
    return this.keeping.setReorderPoint(call);
  }
}
