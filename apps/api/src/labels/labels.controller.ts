import { Controller, Inject } from "@nestjs/common";
import { sendFile } from "../http/file.ts";
import { Checked, Operation, type Call } from "../http/operation.ts";
import { LabelsService } from "./labels.service.ts";
import { SheetsService } from "./sheets.service.ts";

@Controller()
export class LabelsController {
  constructor(
    @Inject(LabelsService) private readonly labels: LabelsService,
    @Inject(SheetsService) private readonly sheets: SheetsService,
  ) {}

  @Operation("makeLabels")
  makeLabels(@Checked() call: Call<"makeLabels">) {
    return this.labels.makeLabels(call);
  }

  @Operation("listLabelRuns")
  listLabelRuns(@Checked() call: Call<"listLabelRuns">) {
    return this.labels.listLabelRuns(call);
  }

  @Operation("getLabelRun")
  getLabelRun(@Checked() call: Call<"getLabelRun">) {
    return this.labels.getLabelRun(call);
  }

  @Operation("getLabelDocument")
  async getLabelDocument(@Checked() call: Call<"getLabelDocument">) {
    return sendFile(call.reply, await this.labels.getLabelDocument(call));
  }

  @Operation("previewLabel")
  async previewLabel(@Checked() call: Call<"previewLabel">) {
    return sendFile(call.reply, await this.labels.previewLabel(call));
  }

  @Operation("listSheets")
  listSheets(@Checked() call: Call<"listSheets">) {
    return this.sheets.listSheets(call);
  }

  @Operation("addSheet")
  addSheet(@Checked() call: Call<"addSheet">) {
    return this.sheets.addSheet(call);
  }

  @Operation("changeSheet")
  changeSheet(@Checked() call: Call<"changeSheet">) {
    return this.sheets.changeSheet(call);
  }

  @Operation("removeSheet")
  removeSheet(@Checked() call: Call<"removeSheet">) {
    return this.sheets.removeSheet(call);
  }

  @Operation("getSheetTest")
  async getSheetTest(@Checked() call: Call<"getSheetTest">) {
    return sendFile(call.reply, await this.sheets.getSheetTest(call));
  }

  @Operation("getScannerSheet")
  async getScannerSheet(@Checked() call: Call<"getScannerSheet">) {
    return sendFile(call.reply, await this.labels.getScannerSheet(call));
  }
}
