import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { lotLookAlikeKey } from "#labels";
import type { PatientTrace, Trace, TraceQuery } from "#contracts/withdrawals";
import {
  findProductByIdentifier,
  findProductByIdentifierText,
} from "../catalogue/catalogue.store.ts";
import { inRead, type Tx } from "../db/transaction.ts";
import type { Actor } from "../http/actor.ts";
import type { Call } from "../http/operation.ts";
import { notFound } from "../http/problem.ts";
import { readScan } from "../stock/reading.ts";
import { findContainerByCode } from "../stock/stock.store.ts";
import { traceLots } from "./trace-lots.ts";
import * as store from "./trace.store.ts";

@Injectable()
export class TraceService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  traceStock(told: { actor: Actor; at: Date; query: TraceQuery }): Promise<Trace> {
    const { query } = told;
    return inRead(this.db, told, async (tx) => {
      const { lots, lot } = await findLots(tx, query);
      const alike = lot === null ? [] : await store.listLookAlikes(tx, lotLookAlikeKey(lot), lot);
      return {
        asked: {
          lot: query.lot ?? null,
          identifier: query.identifier ?? null,
          container: query.container ?? null,
        },
        at: tx.at.toISOString(),
        lots: await traceLots(tx, lots),
        lookAlikes: alike.map((row) => ({
          lotId: row.lot_id,
          lot: row.lot,
          productName: row.product_name,
        })),
      };
    });
  }

  tracePatient(call: Call<"tracePatient">): Promise<PatientTrace> {
    const { chart, tooth = null } = call.query;
    return inRead(this.db, call, async (tx) => {
      if ((await store.findPatient(tx, chart)).length === 0) throw notFound("chart number");
      const rows = await store.listPatientMaterials(tx, chart, tooth);
      const records = [...new Set(rows.map((row) => row.record_id))];
      return {
        chartNumber: chart,
        teeth: records.map((recordId) => {
          const own = rows.filter((row) => row.record_id === recordId);
          const first = own[0]!;
          return {
            tooth: first.tooth,
            recordId,
            recordState: first.record_state,
            visit: first.visit,
            startedAt: first.started_at.toISOString(),
            materials: own.flatMap((row) => (row.step_key === null ? [] : [materialView(row)])),
          };
        }),
      };
    });
  }
}

const materialView = (row: store.PatientMaterialRow) => ({
  stepKey: row.step_key!,
  productName: row.product_name,
  lot: row.lot,
  lotId: row.lot_id,
  useBy: row.use_by,
  containerCode: row.code,
  usedAt: row.used_at.toISOString(),
});

/** The lots a question means, and the lot text it was asked by, if any. */
async function findLots(
  tx: Tx,
  query: TraceQuery,
): Promise<{ lots: store.LotRow[]; lot: string | null }> {
  if (query.container !== undefined) {
    const scan = readScan(tx, { barcodes: [query.container] });
    const container = scan.type === "code" ? await findContainerByCode(tx, scan.code) : undefined;
    if (!container) throw notFound("container");
    return { lots: await store.listLotsById(tx, [container.lot_id]), lot: container.lot };
  }
  const named = query.identifier === undefined ? null : await nameProduct(tx, query.identifier);
  const lot = query.lot?.trim() ?? named?.lot ?? null;
  if (lot !== null && lot !== "") {
    return { lots: await store.listLotsByText(tx, lot, named?.productId ?? null), lot };
  }
  if (!named) return { lots: [], lot: null };
  return { lots: await store.listLotsOfProduct(tx, named.productId), lot: null };
}

/** The product of a device identifier as it is printed, or of a whole label. */
async function nameProduct(
  tx: Tx,
  text: string,
): Promise<{ productId: string; lot: string | null }> {
  const plain = await findProductByIdentifierText(tx, text.trim());
  if (plain) return { productId: plain.product_id, lot: null };
  const { reading } = readScan(tx, { barcodes: [text] });
  const product = reading.identifier && (await findProductByIdentifier(tx, reading.identifier));
  if (!product) throw notFound("device identifier");
  return { productId: product.product_id, lot: reading.lot };
}
