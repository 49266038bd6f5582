import { Controller, Inject } from "@nestjs/common";
import { AuditService } from "../audit/audit.service.ts";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { OverviewService } from "./overview.service.ts";

@Controller()
export class OverviewController {
  constructor(
    @Inject(OverviewService) private readonly overview: OverviewService,
    @Inject(AuditService) private readonly audit: AuditService,
  ) {}

  @Operation("getToday")
  getToday(@Checked() call: Call<"getToday">) {
    return this.overview.getToday(call);
  }

  @Operation("listAudit")
  listAudit(@Checked() call: Call<"listAudit">) {
    return this.audit.listAudit(call);
  }

  @Operation("verifyAudit")
  verifyAudit(@Checked() call: Call<"verifyAudit">) {
    return this.audit.verify(call);
  }
}
