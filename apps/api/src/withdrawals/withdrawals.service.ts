import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import type { WithdrawalView } from "#contracts/withdrawals";
import { findProductName } from "../catalogue/catalogue.store.ts";
import { inCommand, inRead, type Tx } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import type { Answer, Call } from "../http/operation.ts";
import { notFound, Problem } from "../http/problem.ts";
import { insertMovement } from "../stock/movements.store.ts";
import { getPlaceOfKind } from "../stock/stock.store.ts";
import { traceLots } from "./trace-lots.ts";
import { listLotsById } from "./trace.store.ts";
import * as store from "./withdrawals.store.ts";

@Injectable()
export class WithdrawalsService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  listWithdrawals(call: Call<"listWithdrawals">): Promise<Answer<"listWithdrawals">> {
    return inRead(this.db, call, async (tx) => ({
      withdrawals: (await store.listWithdrawals(tx)).map(headOf),
    }));
  }

  openWithdrawal(call: Call<"openWithdrawal">): Promise<WithdrawalView> {
    const { body } = call;
    return inCommand(this.db, call, async (tx) => {
      for (const { productId } of body.scope) {
        if (!(await findProductName(tx, productId))) throw notFound("product");
      }
      const id = newId();
      const scope = body.scope.map((each) => ({ ...each, lot: each.lot.trim() }));
      await store.insertWithdrawal(tx, { ...body, id, scope });
      tx.audit("withdrawal-opened", `withdrawal:${id}`, { ...body, scope });
      return getWithdrawal(tx, id);
    });
  }

  getWithdrawal(call: Call<"getWithdrawal">): Promise<WithdrawalView> {
    return inRead(this.db, call, (tx) => getWithdrawal(tx, call.params.withdrawalId));
  }

  /** Finds all that is covered and still on a shelf, and moves it into quarantine. */
  segregate(call: Call<"segregate">): Promise<Answer<"segregate">> {
    const id = call.params.withdrawalId;
    return inCommand(this.db, call, async (tx) => {
      await refuseClosed(tx, id);
      const loose = await store.listNotQuarantined(tx, await store.listCoveredLots(tx, id));
      const quarantine = await getPlaceOfKind(tx, "quarantine");
      for (const container of loose) {
        await insertMovement(tx, {
          id: newId(),
          lotId: container.lot_id,
          containerId: container.id,
          fromLocationId: container.location_id,
          toLocationId: quarantine.id,
          quantity: 1,
          reason: "quarantined",
        });
      }
      await store.updateWithdrawalState(tx, id, "segregated");
      const containers = loose.map((container) => container.id);
      tx.audit("segregated", `withdrawal:${id}`, { containers });
      return { moved: loose.length, withdrawal: await getWithdrawal(tx, id) };
    });
  }

  closeWithdrawal(call: Call<"closeWithdrawal">): Promise<WithdrawalView> {
    const id = call.params.withdrawalId;
    return inCommand(this.db, call, async (tx) => {
      await refuseClosed(tx, id);
      await store.updateClosed(tx, id, call.body.summary);
      tx.audit("withdrawal-closed", `withdrawal:${id}`, call.body);
      return getWithdrawal(tx, id);
    });
  }
}

async function refuseClosed(tx: Tx, id: string): Promise<void> {
  const state = await store.lockWithdrawal(tx, id);
  if (state === undefined) throw notFound("withdrawal");
  if (state === "closed") {
    throw new Problem(
      "withdrawal-closed",
      "This withdrawal is closed. Enter a new one if need be.",
    );
  }
}

async function getWithdrawal(tx: Tx, id: string): Promise<WithdrawalView> {
  const row = await store.findWithdrawal(tx, id);
  if (!row) throw notFound("withdrawal");
  const lots = await listLotsById(tx, await store.listCoveredLots(tx, id));
  return { ...headOf(row), trace: await traceLots(tx, lots) };
}

const headOf = (row: store.WithdrawalRow) => ({
  id: row.id,
  reference: row.reference,
  note: row.note,
  state: row.state,
  receivedAt: row.received_at.toISOString(),
  receivedBy: row.received_by,
  closedAt: row.closed_at?.toISOString() ?? null,
  summary: row.summary,
  scope: row.scope,
});
