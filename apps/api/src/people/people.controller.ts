import { Controller, Inject } from "@nestjs/common";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { PeopleService } from "./people.service.ts";

@Controller()
export class PeopleController {
  constructor(@Inject(PeopleService) private readonly people: PeopleService) {}

  @Operation("listPeople")
  listPeople(@Checked() call: Call<"listPeople">) {
    return this.people.listPeople(call);
  }

  @Operation("addPerson")
  addPerson(@Checked() call: Call<"addPerson">) {
    return this.people.addPerson(call);
  }

  @Operation("listDevices")
  listDevices(@Checked() call: Call<"listDevices">) {
    return this.people.listDevices(call);
  }

  @Operation("registerDevice")
  registerDevice(@Checked() call: Call<"registerDevice">) {
    return this.people.registerDevice(call);
  }

  @Operation("revokeDevice")
  revokeDevice(@Checked() call: Call<"revokeDevice">) {
    return this.people.revokeDevice(call);
  }

  @Operation("getScannerProfile")
  getScannerProfile(@Checked() call: Call<"getScannerProfile">) {
    return this.people.getScannerProfile(call);
  }

  @Operation("saveScannerProfile")
  saveScannerProfile(@Checked() call: Call<"saveScannerProfile">) {
    return this.people.saveScannerProfile(call);
  }
}
