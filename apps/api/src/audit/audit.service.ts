import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import type { Verification } from "#contracts/overview";
import { inRead, type Tx } from "../db/transaction.ts";
import type { Actor } from "../http/actor.ts";
import type { Answer, Call } from "../http/operation.ts";
import * as store from "./audit.store.ts";
import { chainStart, compareHead, followChain, type ChainFault } from "./verify-chain.ts";

const pageSize = 5_000;

@Injectable()
export class AuditService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  listAudit(call: Call<"listAudit">): Promise<Answer<"listAudit">> {
    return inRead(this.db, call, async (tx) => ({
      entries: (await store.listAudit(tx, call.query.before, call.query.limit)).map((row) => ({
        sequence: row.sequence,
        at: row.at.toISOString(),
        person: row.person,
        action: row.action,
        subject: row.subject,
        change: row.change,
        hash: row.hash.toString("hex"),
      })),
    }));
  }

  /** Checks a practice's chain, ledger and signed records, as one moment shows them. */
  verify(told: { actor: Actor; at: Date }): Promise<Verification> {
    return inRead(this.db, told, async (tx) => {
      const { entries, head, fault } = await verifyChain(tx);
      const ledger = await store.compareLedger(tx);
      const records = await store.compareSigned(tx);
      const ok = fault === null && ledger.differences === 0 && records.faults === 0;
      return { entries, head, fault, ledger, records, ok };
    });
  }
}

async function verifyChain(tx: Tx) {
  const head = await store.findHead(tx);
  let position = chainStart;
  let fault: ChainFault | null = null;
  let page: store.AuditRow[];
  do {
    page = await store.listAuditAfter(tx, position.sequence, pageSize);
    ({ position, fault } = followChain(position, page));
  } while (!fault && page.length === pageSize);
  fault ??= compareHead(position, head);
  return { entries: position.sequence, head: head?.hash.toString("hex") ?? null, fault };
}
