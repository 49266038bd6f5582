import type { DataSource } from "typeorm";
import { checkTray } from "#domain";
import { inCommand, inRead } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import type { Actor } from "../http/actor.ts";
import { loadTrays } from "../trays/tray-facts.store.ts";
import * as store from "./recheck.store.ts";

/** So many trays are read, checked and written at a time: others are not kept waiting. */
const trayBatch = 500;

export interface Recheck {
  actor: Actor;
  at: Date;
  /** `null`: every open tray. */
  trayIds: readonly string[] | null;
  /** Why a verdict may change that nobody at the tray changed; `null`: somebody worked on it. */
  cause: string | null;
}

type Found = store.NewVerdict & { seen: readonly store.SeenFinding[] };

/** Checks open trays again and keeps what was found; answers whose verdict changed by itself. */
export async function recheckTrays(db: DataSource, told: Recheck): Promise<store.NewChange[]> {
  const ids = await inRead(db, told, (tx) => store.listOpenTrays(tx, told.trayIds));
  const changes: store.NewChange[] = [];
  for (let start = 0; start < ids.length; start += trayBatch) {
    const batch = ids.slice(start, start + trayBatch);
    changes.push(...(await recheckBatch(db, told, batch)));
  }
  return changes;
}

function recheckBatch(
  db: DataSource,
  told: Recheck,
  trayIds: readonly string[],
): Promise<store.NewChange[]> {
  const { actor, at, cause } = told;
  return inCommand(db, { actor, at, submission: null }, async (tx) => {
    const found = (await loadTrays(tx, trayIds)).map(({ head, facts }): Found => {
      const { verdict, findings } = checkTray(facts, at.toISOString());
      const seen = findings.flatMap(({ code, level }) =>
        level === "info" ? [] : [{ trayId: head.id, code, level }],
      );
      return {
        trayId: head.id,
        verdict,
        codes: [...new Set(findings.map(({ code }) => code))],
        seen,
      };
    });
    const before = await store.listVerdicts(tx, trayIds);
    const changes = cause === null ? [] : listChanged(found, before, cause);
    await store.keepVerdicts(tx, found);
    await store.keepSeen(tx, uniqueSeen(found.flatMap(({ seen }) => seen)));
    if (changes.length > 0) await store.insertChanges(tx, changes);
    return changes;
  });
}

function listChanged(
  found: readonly Found[],
  before: Awaited<ReturnType<typeof store.listVerdicts>>,
  cause: string,
): store.NewChange[] {
  return found.flatMap(({ trayId, verdict, codes }) => {
    const was = before.get(trayId);
    if (was === undefined || was === verdict) return [];
    return [{ id: newId(), trayId, verdict, codes, before: was, cause }];
  });
}

const uniqueSeen = (seen: readonly store.SeenFinding[]) => [
  ...new Map(seen.map((one) => [`${one.trayId} ${one.code} ${one.level}`, one])).values(),
];
