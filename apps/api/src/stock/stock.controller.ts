import { Controller, Inject } from "@nestjs/common";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { StockService } from "./stock.service.ts";

@Controller()
export class StockController {
  constructor(@Inject(StockService) private readonly stock: StockService) {}

  @Operation("readScan")
  readScan(@Checked() call: Call<"readScan">) {
    return this.stock.readScan(call);
  }

  @Operation("listContainers")
  listContainers(@Checked() call: Call<"listContainers">) {
    return this.stock.listContainers(call);
  }

  @Operation("getContainer")
  getContainer(@Checked() call: Call<"getContainer">) {
    return this.stock.getContainer(call);
  }

  @Operation("openContainer")
  openContainer(@Checked() call: Call<"openContainer">) {
    return this.stock.openContainer(call);
  }

  @Operation("move")
  move(@Checked() call: Call<"move">) {
    return this.stock.move(call);
  }

  @Operation("reverseMovement")
  reverseMovement(@Checked() call: Call<"reverseMovement">) {
    return this.stock.reverseMovement(call);
  }

  @Operation("listBalances")
  listBalances(@Checked() call: Call<"listBalances">) {
    return this.stock.listBalances(call);
  }
}
