import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { readTechniqueFaults, type TechniqueStep } from "#domain";
import type { TechniqueDetail } from "#contracts/techniques";
import { inCommand, inRead, type Tx } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import type { Call } from "../http/operation.ts";
import { notFound, Problem } from "../http/problem.ts";
import { stepViews } from "./step-views.ts";
import * as store from "./techniques.store.ts";

@Injectable()
export class TechniquesService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  getTechnique(call: Call<"getTechnique">): Promise<TechniqueDetail> {
    return inRead(this.db, call, (tx) => getDetail(tx, call.params.techniqueId));
  }

  addTechnique(call: Call<"addTechnique">): Promise<TechniqueDetail> {
    const { name, visit, steps, madeFrom } = call.body;
    refuseFaults(steps);
    return inCommand(this.db, call, async (tx) => {
      if (madeFrom !== null) await getDetail(tx, madeFrom);
      const id = newId();
      // Its own id: nobody reads it, and no name could be taken twice.
      await store.insertTechniqueVersion(tx, {
        ...{ id, key: id, version: 1 },
        ...{ name, visit, steps, madeFrom },
      });
      tx.audit("technique-added", `technique:${id}`, call.body);
      return getDetail(tx, id);
    });
  }

  /** Makes a new version; the one before stays as it is with whatever was planned with it. */
  changeTechnique(call: Call<"changeTechnique">): Promise<TechniqueDetail> {
    const { name, steps } = call.body;
    refuseFaults(steps);
    return inCommand(this.db, call, async (tx) => {
      const before = await getOwn(tx, call.params.techniqueId);
      if (!(await store.retireTechnique(tx, before.id))) throw changedMeanwhile();
      const id = newId();
      const { key, visit } = before;
      const version = before.version + 1;
      await store.insertTechniqueVersion(tx, {
        ...{ id, key, version, visit },
        ...{ name, steps, madeFrom: before.id },
      });
      tx.audit("technique-changed", `technique:${id}`, { before: before.id, ...call.body });
      return getDetail(tx, id);
    });
  }

  retireTechnique(call: Call<"retireTechnique">): Promise<TechniqueDetail> {
    const { techniqueId: id } = call.params;
    return inCommand(this.db, call, async (tx) => {
      await getDetail(tx, id);
      if (!(await store.retireTechnique(tx, id))) throw changedMeanwhile();
      tx.audit("technique-retired", `technique:${id}`, {});
      return getDetail(tx, id);
    });
  }

  confirmTechnique(call: Call<"confirmTechnique">): Promise<TechniqueDetail> {
    const { techniqueId } = call.params;
    return inCommand(this.db, call, async (tx) => {
      const { id, retired } = await getOwn(tx, techniqueId);
      if (retired) throw changedMeanwhile();
      await store.confirmTechnique(tx, id);
      tx.audit("technique-confirmed", `technique:${id}`, {});
      return getDetail(tx, id);
    });
  }
}

function refuseFaults(steps: readonly TechniqueStep[]): void {
  const [first, ...others] = readTechniqueFaults(steps);
  if (first === undefined) return;
  throw new Problem(
    "invalid-request",
    "The steps contradict themselves. Look at what is marked and mend it.",
    {
      errors: [first, ...others].map(({ path, fault }) => ({
        path: `/body${path}`,
        message: fault,
      })),
    },
  );
}

async function getDetail(tx: Tx, id: string): Promise<TechniqueDetail> {
  const row = await store.findTechniqueDetail(tx, id);
  if (!row) throw notFound("technique");
  const { confirmed_by: by, confirmed_at: at } = row;
  return {
    id: row.id,
    key: row.key,
    name: row.name,
    version: row.version,
    visit: row.visit,
    starter: row.starter,
    steps: stepViews(row.steps),
    retired: row.retired,
    madeFrom: row.made_from,
    created: { by: row.created_by, at: row.created_at.toISOString() },
    confirmed: by !== null && at !== null ? { by, at: at.toISOString() } : null,
    versions: row.versions.map((one) => ({
      ...one,
      createdAt: new Date(one.createdAt).toISOString(),
    })),
  };
}

/** What is common practice is not changed or confirmed as it is: it is copied first. */
async function getOwn(tx: Tx, id: string): Promise<TechniqueDetail> {
  const technique = await getDetail(tx, id);
  if (!technique.starter) return technique;
  throw new Problem(
    "technique-is-starter",
    "This is a common-practice default. Copy it, and make the copy your own.",
  );
}

const changedMeanwhile = () =>
  new Problem(
    "product-changed",
    "Another version was made meanwhile, or it is retired. Reload it and decide again.",
  );
