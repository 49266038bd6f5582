import { civilDateAt, daysBetween } from "#domain";
import type { RecordView } from "#contracts/records";
import type { Tx } from "../db/transaction.ts";
import type { LinkedRow } from "./linked.store.ts";

/** Seal and bonding of a tooth, with the days from one to the other in the practice's zone. */
export function linkedViews(
  { actor }: Tx,
  { linked }: { linked: LinkedRow },
): Pick<RecordView, "seal" | "bonding"> {
  const dayOf = (at: string) => civilDateAt(new Date(at).toISOString(), actor.timeZone);
  const viewOf = (one: LinkedRow["seal"]): RecordView["seal"] =>
    one && {
      id: one.id,
      signedAt: new Date(one.signed_at).toISOString(),
      days: daysBetween(dayOf(one.sealed_at), dayOf(one.bonded_at)),
    };
  return { seal: viewOf(linked.seal), bonding: viewOf(linked.bonding) };
}
