import { Controller, Inject } from "@nestjs/common";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { sendFile } from "../http/file.ts";
import { DowntimeService } from "./downtime.service.ts";
import { AppointmentsService } from "./appointments.service.ts";
import { TemplatesService } from "./templates.service.ts";
import { TraysService } from "./trays.service.ts";

@Controller()
export class TraysController {
  constructor(
    @Inject(TraysService) private readonly trays: TraysService,
    @Inject(AppointmentsService) private readonly appointments: AppointmentsService,
    @Inject(TemplatesService) private readonly templates: TemplatesService,
    @Inject(DowntimeService) private readonly downtime: DowntimeService,
  ) {}

  @Operation("listTrays")
  listTrays(@Checked() call: Call<"listTrays">) {
    return this.trays.listTrays(call);
  }

  @Operation("planTray")
  planTray(@Checked() call: Call<"planTray">) {
    return this.trays.planTray(call);
  }

  @Operation("listTemplates")
  listTemplates(@Checked() call: Call<"listTemplates">) {
    return this.templates.listTemplates(call);
  }

  @Operation("addTemplate")
  addTemplate(@Checked() call: Call<"addTemplate">) {
    return this.templates.addTemplate(call);
  }

  @Operation("changeTemplate")
  changeTemplate(@Checked() call: Call<"changeTemplate">) {
    return this.templates.changeTemplate(call);
  }

  @Operation("removeTemplate")
  removeTemplate(@Checked() call: Call<"removeTemplate">) {
    return this.templates.removeTemplate(call);
  }

  @Operation("listVisits")
  listVisits(@Checked() call: Call<"listVisits">) {
    return this.appointments.listVisits(call);
  }

  @Operation("readAppointments")
  readAppointments(@Checked() call: Call<"readAppointments">) {
    return this.appointments.readAppointments(call);
  }

  @Operation("planTrays")
  planTrays(@Checked() call: Call<"planTrays">) {
    return this.appointments.planTrays(call);
  }

  @Operation("changeTray")
  changeTray(@Checked() call: Call<"changeTray">) {
    return this.trays.changeTray(call);
  }

  @Operation("getTray")
  getTray(@Checked() call: Call<"getTray">) {
    return this.trays.getTray(call);
  }

  @Operation("scanIntoTray")
  scanIntoTray(@Checked() call: Call<"scanIntoTray">) {
    return this.trays.scanIntoTray(call);
  }

  @Operation("removeFromTray")
  removeFromTray(@Checked() call: Call<"removeFromTray">) {
    return this.trays.removeFromTray(call);
  }

  @Operation("getTrayReturns")
  getTrayReturns(@Checked() call: Call<"getTrayReturns">) {
    return this.trays.getTrayReturns(call);
  }

  @Operation("getDowntimeSheet")
  async getDowntimeSheet(@Checked() call: Call<"getDowntimeSheet">) {
    return sendFile(call.reply, await this.downtime.getDowntimeSheet(call));
  }

  @Operation("clearTray")
  clearTray(@Checked() call: Call<"clearTray">) {
    return this.trays.clearTray(call);
  }

  @Operation("overrideFinding")
  overrideFinding(@Checked() call: Call<"overrideFinding">) {
    return this.trays.overrideFinding(call);
  }

  @Operation("changeAllergies")
  changeAllergies(@Checked() call: Call<"changeAllergies">) {
    return this.trays.changeAllergies(call);
  }
}
