import { Controller, Inject } from "@nestjs/common";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { TraceService } from "./trace.service.ts";
import { WithdrawalsService } from "./withdrawals.service.ts";

@Controller()
export class WithdrawalsController {
  constructor(
    @Inject(TraceService) private readonly trace: TraceService,
    @Inject(WithdrawalsService) private readonly withdrawals: WithdrawalsService,
  ) {}

  @Operation("traceStock")
  traceStock(@Checked() call: Call<"traceStock">) {
    return this.trace.traceStock(call);
  }

  @Operation("tracePatient")
  tracePatient(@Checked() call: Call<"tracePatient">) {
    return this.trace.tracePatient(call);
  }

  @Operation("listWithdrawals")
  listWithdrawals(@Checked() call: Call<"listWithdrawals">) {
    return this.withdrawals.listWithdrawals(call);
  }

  @Operation("openWithdrawal")
  openWithdrawal(@Checked() call: Call<"openWithdrawal">) {
    return this.withdrawals.openWithdrawal(call);
  }

  @Operation("getWithdrawal")
  getWithdrawal(@Checked() call: Call<"getWithdrawal">) {
    return this.withdrawals.getWithdrawal(call);
  }

  @Operation("segregate")
  segregate(@Checked() call: Call<"segregate">) {
    return this.withdrawals.segregate(call);
  }

  @Operation("closeWithdrawal")
  closeWithdrawal(@Checked() call: Call<"closeWithdrawal">) {
    return this.withdrawals.closeWithdrawal(call);
  }
}
