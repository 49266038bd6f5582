import type { WithdrawalState } from "#domain";
import { statement, type Tx } from "../db/transaction.ts";
import { containerColumns, type ContainerRow } from "../stock/container-row.ts";
import type { LotRow } from "./trace.store.ts";

export interface WithdrawalRow {
  id: string;
  reference: string;
  note: string;
  state: WithdrawalState;
  received_at: Date;
  received_by: string;
  closed_at: Date | null;
  summary: string | null;
  scope: { productId: string; productName: string; lot: string }[];
}
const text = `select w.id, w.reference, w.note, w.state, w.received_at,
    p.display_name as received_by,
    w.closed_at, w.summary,
    (select json_agg(json_build_object('productId', s.product_id, 'productName', d.name,
                              'lot', s.lot)
                     order by d.name, s.lot)
     from withdrawal_scope s join product d on d.id = s.product_id
     where s.practice_id = w.practice_id and s.withdrawal_id = w.id) as scope
  from withdrawal w join person p on p.id = w.received_by
  where w.practice_id = $1`;
const all = statement<WithdrawalRow>(
  "list-withdrawals",
  `${text} order by w.received_at desc, w.id desc limit 500`,
);
export const listWithdrawals = (tx: Tx) => tx.rows(all, [tx.actor.practiceId]);

const byId = statement<WithdrawalRow>("find-withdrawal", `${text} and w.id = $2`);
export async function findWithdrawal(tx: Tx, id: string): Promise<WithdrawalRow | undefined> {
  return (await tx.rows(byId, [tx.actor.practiceId, id]))[0];
}
const lock = statement<{ state: WithdrawalState }>(
  "lock-withdrawal",
  "select state from withdrawal where practice_id = $1 and id = $2 for update",
);
export async function lockWithdrawal(tx: Tx, id: string): Promise<WithdrawalState | undefined> {
  return (await tx.rows(lock, [tx.actor.practiceId, id]))[0]?.state;
}

const insert = statement(
  "insert-withdrawal",
  `insert into withdrawal (practice_id, id, reference, note, state, received_by, received_at)
   values ($1, $2, $3, $4, 'tracing', $5, $6)`,
);
const scope = statement(
  "insert-withdrawal-scope",
  `insert into withdrawal_scope (practice_id, withdrawal_id, product_id, lot)
   select $1, $2, s.product, s.lot from unnest($3::uuid[], $4::text[]) as s (product, lot)
   on conflict do nothing`,
);
export async function insertWithdrawal(
  tx: Tx,
  one: {
    id: string;
    reference: string;
    note: string;
    scope: readonly { productId: string; lot: string }[];
  },
): Promise<void> {
  const { practiceId, personId } = tx.actor;
  await tx.rows(insert, [practiceId, one.id, one.reference, one.note, personId, tx.at]);
  const products = one.scope.map(({ productId }) => productId);
  await tx.rows(scope, [practiceId, one.id, products, one.scope.map(({ lot }) => lot)]);
}

const state = statement(
  "set-withdrawal-state",
  "update withdrawal set state = $3 where practice_id = $1 and id = $2",
);
export const updateWithdrawalState = (tx: Tx, id: string, next: WithdrawalState) =>
  tx.rows(state, [tx.actor.practiceId, id, next]);

const closing = statement(
  "close-withdrawal",
  `update withdrawal set state = 'closed', closed_by = $3, closed_at = $4, summary = $5
   where practice_id = $1 and id = $2`,
);
export const updateClosed = (tx: Tx, id: string, summary: string) =>
  tx.rows(closing, [tx.actor.practiceId, id, tx.actor.personId, tx.at, summary]);

const covered = statement<{ lot_id: string }>(
  "list-covered-lots",
  `select distinct l.id as lot_id from withdrawal_scope s
   join lot l on l.practice_id = s.practice_id and l.product_id = s.product_id
     and s.lot in ('', l.lot)
   where s.practice_id = $1 and s.withdrawal_id = $2`,
);
export const listCoveredLots = async (tx: Tx, id: string): Promise<LotRow["lot_id"][]> =>
  (await tx.rows(covered, [tx.actor.practiceId, id])).map((row) => row.lot_id);

const loose = statement<ContainerRow>(
  "list-not-quarantined",
  `select ${containerColumns} from container_now c
   where c.practice_id = $1 and c.lot_id = any($2) and not c.outside
     and c.location_kind <> 'quarantine' order by c.id`,
);
export const listNotQuarantined = (tx: Tx, lotIds: readonly string[]) =>
  tx.rows(loose, [tx.actor.practiceId, lotIds]);
