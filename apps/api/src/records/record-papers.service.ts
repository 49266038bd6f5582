import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { civilDateAt } from "#domain";
import { inRead } from "../db/transaction.ts";
import type { SentFile } from "../http/file.ts";
import type { Call } from "../http/operation.ts";
import { notFound } from "../http/problem.ts";
import { readRecord } from "./read-record.ts";
import { writeCard, writeRecord, type RecordOnPaper } from "./record-paper.ts";
import { recordView } from "./record-view.ts";
import { findRecord, getPracticeName } from "./records.store.ts";

/** Records on paper. */
@Injectable()
export class RecordPapersService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  async getRecordDocument(call: Call<"getRecordDocument">): Promise<SentFile> {
    return writeRecord(await this.read(call));
  }

  async getMaterialCard(call: Call<"getMaterialCard">): Promise<SentFile> {
    const told = await this.read(call);
    return writeCard({ ...told, day: civilDateAt(told.record.startedAt, told.timeZone) });
  }

  private read(call: Call<"getRecordDocument" | "getMaterialCard">): Promise<RecordOnPaper> {
    const { language, timeZone } = call.actor;
    return inRead(this.db, call, async (tx) => {
      const row = await findRecord(tx, call.params.recordId);
      if (!row) throw notFound("record");
      return {
        record: recordView(tx, await readRecord(tx, row)),
        practice: await getPracticeName(tx),
        language: call.query.language ?? language,
        timeZone,
        at: call.at,
      };
    });
  }
}
