/** Later versions of a signed record, tried in SQL alone: what was done counts once, and stays. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type pg from "pg";
import {
  act,
  addEvent,
  addMaterial,
  addRecord,
  addTray,
  asDentist,
  refusalOf,
  sign,
} from "./acts.ts";
import { openScene, type Scene } from "./scene.ts";

let it: Scene;
beforeAll(async () => {
  it = await openScene();
});
afterAll(() => it.close());

const byDentist = <T>(work: (client: pg.Client) => Promise<T>) =>
  act(it.app, asDentist(it.here), work);
const newDraft = () =>
  byDentist(async (client) => addRecord(client, it.here, { tray: await addTray(client, it.here) }));
const newSigned = async () => {
  const record = await newDraft();
  await byDentist((client) => sign(client, it.here, { record }));
  return record;
};
const valueOf = async (column: string, record: string) =>
  (
    await it.owner.query<{ value: string }>(`select ${column} as value from record where id = $1`, [
      record,
    ])
  ).rows[0]!.value;
const stateOf = (record: string) => valueOf("state", record);
const trayOf = (record: string) => valueOf("tray_id", record);

/** A signed record with an event and a material, as it was, and a draft that takes its place. */
async function newAmended(amends: "addition" | "correction" = "addition") {
  const first = await newDraft();
  await byDentist(async (client) => {
    await addEvent(client, it.here, { record: first, sequence: 1 });
    await addMaterial(client, it.here, { record: first });
    await sign(client, it.here, { record: first });
  });
  const { rows } = await it.owner.query<object>("select * from record where id = $1", [first]);
  const told = { tray: await trayOf(first), version: 2, supersedes: first, amends };
  const second = await byDentist((client) => addRecord(client, it.here, told));
  return { first, second, before: rows[0]! };
}

describe("a record", () => {
  test("of a later version follows the signed one of its tooth, and says why", async () => {
    const follow = (supersedes: string, told: Parameters<typeof addRecord>[2] = {}) =>
      refusalOf(
        byDentist((client) =>
          addRecord(client, it.here, { version: 2, ...told, ...(supersedes && { supersedes }) }),
        ),
      );
    const tray = await byDentist((client) => addTray(client, it.here));
    const first = await byDentist((client) => addRecord(client, it.here, { tray }));
    expect(await follow(first, { tray })).toBe("record_follows_signed");
    await byDentist((client) => sign(client, it.here, { record: first }));
    expect(await follow(it.here.signed, { tray })).toBe("record_follows_signed");
    expect(await follow(first, { tray, version: 3 })).toBe("record_follows_signed");
    expect(await follow("", { tray })).toBe("record_amendment_whole");
    expect(await follow(first, { tray })).toBe("not refused");
    expect(await follow(first, { tray })).toBe("record_follows_signed");
  });

  test("gives way to a later version as soon as that is there", async () => {
    const { first, second } = await newAmended();
    expect(await stateOf(first)).toBe("superseded");
    expect(await stateOf(second)).toBe("draft");
  });

  test("is followed by one later version, whoever comes first", async () => {
    const first = await newSigned();
    const tray = await trayOf(first);
    const clients = await Promise.all(Array.from({ length: 8 }, () => it.connect()));
    const told = { tray, version: 2, supersedes: first };
    const answers = await Promise.all(
      clients.map((client) =>
        refusalOf(act(client, asDentist(it.here), (each) => addRecord(each, it.here, told))),
      ),
    );
    const refused = answers.filter((answer) => answer !== "not refused");
    expect(refused).toHaveLength(7);
    for (const answer of refused) {
      expect(answer).toMatch(/^record_(tray_version_once|follows_signed)$/);
    }
  });

  test("does not vanish: it is superseded by a later version alone", async () => {
    const record = await newSigned();
    const hide = "update record set state = 'superseded' where id = $1";
    const refused = "record_superseded_by_later";
    expect(await refusalOf(it.owner.query(hide, [record]))).toBe(refused);
    const byApp = byDentist((client) => client.query(hide, [record]));
    expect(await refusalOf(byApp)).toBe(refused);
    expect(await stateOf(record)).toBe("signed");
  });

  test("keeps in an addition all that stood in it", async () => {
    const copyEvents = (
      facts = "facts",
    ) => `insert into record_event (practice_id, record_id, sequence, kind, step_key,
        facts, occurred_at, recorded_at, person_id)
      select practice_id, $2, sequence, kind, step_key, ${facts}, occurred_at, recorded_at,
        person_id
      from record_event where record_id = $1`;
    const copyMaterials = `insert into step_material (practice_id, id, record_id, step_key,
        product_id, lot_id, container_id, patient_id, tooth, used_at, person_id)
      select practice_id, gen_random_uuid(), $2, step_key, product_id, lot_id, container_id,
        patient_id, tooth, used_at, person_id
      from step_material where record_id = $1`;
    const signAfter = async (copies: string[], amends: "addition" | "correction") => {
      const { first, second } = await newAmended(amends);
      return refusalOf(
        byDentist(async (client) => {
          for (const copy of copies) await client.query(copy, [first, second]);
          await sign(client, it.here, { record: second });
        }),
      );
    };
    expect(await signAfter([copyEvents()], "addition")).toBe("record_addition_keeps_all");
    expect(await signAfter([copyMaterials], "addition")).toBe("record_addition_keeps_all");
    const other = copyEvents("'{}'::jsonb");
    expect(await signAfter([other, copyMaterials], "addition")).toBe("record_addition_keeps_all");
    expect(await signAfter([copyEvents(), copyMaterials], "addition")).toBe("not refused");
    expect(await signAfter([copyEvents()], "correction")).toBe("not refused");
  });

  test("is superseded with nothing else changed, and stays so", async () => {
    const { first, before } = await newAmended();
    const { rows } = await it.owner.query("select * from record where id = $1", [first]);
    expect(rows).toEqual([{ ...before, state: "superseded" }]);
    const set = (what: string) =>
      refusalOf(it.owner.query(`update record set ${what} where id = $1`, [first]));
    expect(await set("signed_at = now()")).toBe("TB001");
    expect(await set("state = 'signed'")).toBe("TB001");
  });
});
