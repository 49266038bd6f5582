import { Controller, Inject } from "@nestjs/common";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { AuditService } from "./audit.service.ts";

@Controller()
export class AuditController {
  constructor(@Inject(AuditService) private readonly audit: AuditService) {}

  @Operation("listAudit")
  listAudit(@Checked() call: Call<"listAudit">) {
    return this.audit.listAudit(call);
  }

  @Operation("verifyAudit")
  verifyAudit(@Checked() call: Call<"verifyAudit">) {
    return this.audit.verify(call);
  }
}
