import { Controller, Inject } from "@nestjs/common";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { sendFile } from "../http/file.ts";
import { AmendmentsService } from "./amendments.service.ts";
import { RecordPapersService } from "./record-papers.service.ts";
import { RecordsService } from "./records.service.ts";

@Controller()
export class RecordsController {
  constructor(
    @Inject(RecordsService) private readonly records: RecordsService,
    @Inject(AmendmentsService) private readonly amendments: AmendmentsService,
    @Inject(RecordPapersService) private readonly papers: RecordPapersService,
  ) {}

  @Operation("startRecord")
  startRecord(@Checked() call: Call<"startRecord">) {
    return this.records.startRecord(call);
  }

  @Operation("listRecords")
  listRecords(@Checked() call: Call<"listRecords">) {
    return this.records.listRecords(call);
  }

  @Operation("getRecord")
  getRecord(@Checked() call: Call<"getRecord">) {
    return this.records.getRecord(call);
  }

  @Operation("getRecordDocument")
  async getRecordDocument(@Checked() call: Call<"getRecordDocument">) {
    return sendFile(call.reply, await this.papers.getRecordDocument(call));
  }

  @Operation("getRecordFhir")
  async getRecordFhir(@Checked() call: Call<"getRecordFhir">) {
    return sendFile(call.reply, await this.papers.getRecordFhir(call));
  }

  @Operation("getMaterialCard")
  async getMaterialCard(@Checked() call: Call<"getMaterialCard">) {
    return sendFile(call.reply, await this.papers.getMaterialCard(call));
  }

  @Operation("addRecordEvent")
  addRecordEvent(@Checked() call: Call<"addRecordEvent">) {
    return this.records.addRecordEvent(call);
  }

  @Operation("swapContainer")
  swapContainer(@Checked() call: Call<"swapContainer">) {
    return this.records.swapContainer(call);
  }

  @Operation("amendRecord")
  amendRecord(@Checked() call: Call<"amendRecord">) {
    return this.amendments.amendRecord(call);
  }

  @Operation("signRecord")
  signRecord(@Checked() call: Call<"signRecord">) {
    return this.records.signRecord(call);
  }
}
