import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import type { ExcursionView, ProductStock } from "#contracts/keeping";
import { inCommand, inRead, type Tx } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import type { Answer, Call } from "../http/operation.ts";
import { notFound, Problem } from "../http/problem.ts";
import { findLocation } from "../stock/stock.store.ts";
import * as store from "./keeping.store.ts";

@Injectable()
export class KeepingService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  listExcursions(call: Call<"listExcursions">): Promise<Answer<"listExcursions">> {
    return inRead(this.db, call, async (tx) => ({ excursions: await store.listExcursions(tx) }));
  }

  openExcursion(call: Call<"openExcursion">): Promise<ExcursionView> {
    if (Date.parse(call.body.to) > call.at.getTime()) {
      throw new Problem("invalid-request", "An excursion is entered once it is over.", {
        errors: [{ path: "/body/to", message: "not later than now" }],
      });
    }
    return inCommand(this.db, call, async (tx) => {
      const place = await findLocation(tx, call.body.locationId);
      if (!place || place.outside) throw notFound("place in the practice");
      const id = newId();
      await store.insertExcursion(tx, id, call.body);
      tx.audit("excursion-opened", `excursion:${id}`, call.body);
      return getExcursion(tx, id);
    });
  }

  /** A dentist or the owner says what it means for what stood there; it is said once. */
  resolveExcursion(call: Call<"resolveExcursion">): Promise<ExcursionView> {
    const { excursionId: id } = call.params;
    return inCommand(this.db, call, async (tx) => {
      await getExcursion(tx, id);
      if (!(await store.resolveExcursion(tx, id, call.body.resolution))) {
        throw new Problem("excursion-settled", "This excursion was settled before; that stays.");
      }
      tx.audit("excursion-resolved", `excursion:${id}`, call.body);
      return getExcursion(tx, id);
    });
  }

  getProductStock(call: Call<"getProductStock">): Promise<ProductStock> {
    return inRead(this.db, call, (tx) => getStock(tx, call.params.productId));
  }

  setReorderPoint(call: Call<"setReorderPoint">): Promise<ProductStock> {
    const { productId } = call.params;
    return inCommand(this.db, call, async (tx) => {
      const before = await getStock(tx, productId);
      await store.setReorderPoint(tx, productId, call.body.reorderUses);
      const change = { before: before.reorderUses, after: call.body.reorderUses };
      tx.audit("reorder-point-set", `product:${productId}`, change);
      return getStock(tx, productId);
    });
  }
}

async function getExcursion(tx: Tx, id: string): Promise<ExcursionView> {
  const excursion = await store.findExcursion(tx, id);
  if (!excursion) throw notFound("excursion");
  return excursion;
}

async function getStock(tx: Tx, productId: string): Promise<ProductStock> {
  const stock = await store.findProductStock(tx, productId);
  if (!stock) throw notFound("product");
  return stock;
}
