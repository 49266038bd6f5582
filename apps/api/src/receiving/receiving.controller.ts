import { Controller, Inject } from "@nestjs/common";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { ReceivingService } from "./receiving.service.ts";

@Controller()
export class ReceivingController {
  constructor(@Inject(ReceivingService) private readonly receiving: ReceivingService) {}

  @Operation("listDeliveries")
  listDeliveries(@Checked() call: Call<"listDeliveries">) {
    return this.receiving.listDeliveries(call);
  }

  @Operation("openDelivery")
  openDelivery(@Checked() call: Call<"openDelivery">) {
    return this.receiving.openDelivery(call);
  }

  @Operation("getDelivery")
  getDelivery(@Checked() call: Call<"getDelivery">) {
    return this.receiving.getDelivery(call);
  }

  @Operation("receive")
  receive(@Checked() call: Call<"receive">) {
    return this.receiving.receive(call);
  }
}
