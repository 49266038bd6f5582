import type { DataSource } from "typeorm";
import { outsideKinds, shelfKinds, type Role, type KeptStep } from "#domain";
import starter from "../../../../shared/starter-techniques.json" with { type: "json" };
import { inCommand, type Tx } from "../db/transaction.ts";
import { LocationRow, TechniqueRow } from "../db/tables.ts";
import { newId } from "../db/uuid.ts";
import type { Actor } from "../http/actor.ts";
import { actorOf } from "../people/begin-session.ts";
import { createFirstPractice } from "../people/people.store.ts";

const placeNames: Record<"en" | "de", Record<string, string>> = {
  en: {
    store: "Store",
    refrigerator: "Refrigerator",
    operatory: "Operatory 1",
    quarantine: "Quarantine",
    supplier: "Supplier",
    used: "Used up",
    discarded: "Discarded",
    returned: "Returned to supplier",
    lost: "Lost",
    "count-difference": "Count difference",
  },
  de: {
    store: "Lager",
    refrigerator: "Kühlschrank",
    operatory: "Zimmer 1",
    quarantine: "Quarantäne",
    supplier: "Lieferant",
    used: "Aufgebraucht",
    discarded: "Entsorgt",
    returned: "An Lieferant zurück",
    lost: "Verloren",
    "count-difference": "Zähldifferenz",
  },
};

export interface Founding {
  practiceName: string;
  timeZone: string;
  language: "en" | "de";
  demonstration: boolean;
  displayName: string;
  signInName: string;
  passwordHash: string;
  roles: readonly Role[];
}

/**
 * Makes the first practice with its owner, its places and the starter techniques. Gives nothing
 * where somebody else was first.
 */
export async function foundPractice(
  db: DataSource,
  at: Date,
  founding: Founding,
): Promise<Actor | undefined> {
  const ids = { organisationId: newId(), practiceId: newId(), personId: newId() };
  const facts = { ...ids, ...founding, at: at.toISOString() };
  const actor = actorOf({ ...ids, deviceId: null });
  const first = await inCommand(db, { actor, at, submission: null }, async (tx) => {
    if (!(await createFirstPractice(tx, facts))) return false;
    await furnish(tx, founding);
    return true;
  });
  if (!first) return undefined;
  const { roles, timeZone, language } = founding;
  return { ...actor, roles, timeZone, language };
}

/** Gives a new practice its places and the starter techniques. */
export async function furnish(
  tx: Tx,
  founding: Pick<Founding, "practiceName" | "timeZone" | "language">,
): Promise<void> {
  const { practiceId, organisationId } = tx.actor;
  const names = placeNames[founding.language];
  await tx.manager.insert(
    LocationRow,
    [...shelfKinds, ...outsideKinds].map((kind) => ({
      practiceId,
      id: newId(),
      kind,
      name: names[kind]!,
    })),
  );
  await tx.manager.insert(
    TechniqueRow,
    starter.techniques.map((technique) => ({
      ...inLanguage(technique as Bilingual, founding.language),
      id: newId(),
      organisationId,
      version: 1,
      starter: true,
      retired: false,
      createdAt: tx.at,
    })),
  );
  tx.audit("practice-founded", `practice:${practiceId}`, {
    name: founding.practiceName,
    timeZone: founding.timeZone,
  });
}

type Names = Record<"en" | "de", string>;
/** A technique as the shared files write it, with its names in each language. */
export type Bilingual = Pick<TechniqueRow, "key" | "visit"> & {
  name: Names;
  steps: (Omit<KeptStep, "name"> & { name: Names })[];
};
export const inLanguage = ({ key, visit, name, steps }: Bilingual, language: "en" | "de") => ({
  key,
  visit,
  name: name[language],
  steps: steps.map((step) => ({ ...step, name: step.name[language] })),
});
