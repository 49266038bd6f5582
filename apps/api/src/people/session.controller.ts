import { Controller, Inject } from "@nestjs/common";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { SessionService } from "./session.service.ts";

@Controller()
export class SessionController {
  constructor(@Inject(SessionService) private readonly session: SessionService) {}

  @Operation("signIn")
  signIn(@Checked() call: Call<"signIn">) {
    return this.session.signIn(call);
  }

  @Operation("switchPerson")
  switchPerson(@Checked() call: Call<"switchPerson">) {
    return this.session.switchPerson(call);
  }

  @Operation("listDevicePeople")
  listDevicePeople(@Checked() call: Call<"listDevicePeople">) {
    return this.session.listDevicePeople(call);
  }

  @Operation("getSession")
  getSession(@Checked() call: Call<"getSession">) {
    return this.session.getSession(call);
  }

  @Operation("signOut")
  signOut(@Checked() call: Call<"signOut">) {
    return this.session.signOut(call);
  }

  @Operation("setPin")
  setPin(@Checked() call: Call<"setPin">) {
    return this.session.setPin(call);
  }
}
