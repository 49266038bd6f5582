import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { civilDateAt } from "#domain";
import { inRead } from "../db/transaction.ts";
import type { SentFile } from "../http/file.ts";
import type { Call } from "../http/operation.ts";
import { notFound, Problem } from "../http/problem.ts";
import { makeFhirBundle, type FhirSource } from "./fhir-record.ts";
import { findPeople, listDevices } from "./fhir.store.ts";
import { readRecord } from "./read-record.ts";
import { writeCard, writeRecord, type RecordOnPaper } from "./record-paper.ts";
import { recordView } from "./record-view.ts";
import { findRecord, getPracticeName } from "./records.store.ts";

/** Records on paper, and as other systems read them. */
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

  async getRecordFhir(call: Call<"getRecordFhir">): Promise<SentFile> {
    const source = await inRead(this.db, call, async (tx): Promise<FhirSource> => {
      const { recordId } = call.params;
      const row = await findRecord(tx, recordId);
      if (!row) throw notFound("record");
      const people = await findPeople(tx, recordId);
      if (!people) {
        throw new Problem(
          "record-not-signed",
          "A draft is not handed on. Sign the record; then it can be exported.",
        );
      }
      return {
        record: recordView(tx, await readRecord(tx, row)),
        devices: await listDevices(tx, recordId),
        patientId: people.patient_id,
        signerId: people.signed_by,
        practice: await getPracticeName(tx),
        language: call.query.language ?? call.actor.language,
      };
    });
    const text = JSON.stringify(makeFhirBundle(source), null, 2);
    const name = `record-${source.record.id}.fhir.json`;
    return { media: "application/fhir+json", name, bytes: Buffer.from(text) };
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
