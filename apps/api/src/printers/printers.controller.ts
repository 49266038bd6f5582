import { Controller, Inject } from "@nestjs/common";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { PrintersService } from "./printers.service.ts";

@Controller()
export class PrintersController {
  constructor(@Inject(PrintersService) private readonly printers: PrintersService) {}

  @Operation("listPrinters")
  listPrinters(@Checked() call: Call<"listPrinters">) {
    return this.printers.listPrinters(call);
  }

  @Operation("addPrinter")
  addPrinter(@Checked() call: Call<"addPrinter">) {
    return this.printers.addPrinter(call);
  }

  @Operation("changePrinter")
  changePrinter(@Checked() call: Call<"changePrinter">) {
    return this.printers.changePrinter(call);
  }

  @Operation("removePrinter")
  removePrinter(@Checked() call: Call<"removePrinter">) {
    return this.printers.removePrinter(call);
  }

  @Operation("testPrinter")
  testPrinter(@Checked() call: Call<"testPrinter">) {
    return this.printers.testPrinter(call);
  }

  @Operation("printRun")
  printRun(@Checked() call: Call<"printRun">) {
    return this.printers.printRun(call);
  }
}
