import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import { act, asDentist, count, refusalOf } from "./acts.ts";
import { openScene, type Scene } from "./scene.ts";

/** Each table whose rows stay as they are, with a column that somebody might want to change. */
const appendOnly = [
  ["movement", "quantity = quantity + 1"],
  ["record", "tooth = '17'"],
  ["record_event", "facts = '{}'"],
  ["step_material", "lot_id = null"],
  ["audit_entry", "change = '{}'"],
  ["waiting_change", "note = 'something else'"],
  ["light_reading", "irradiance_mw_cm2 = 1300"],
  ["finding_override", "reason = 'because I say so'"],
  ["label_run", "copies = 2"],
  ["label_run_subject", "container_id = null"],
  ["label_print", "labels = 2"],
  ["label_print_outcome", "outcome = 'unreachable'"],
] as const;

// SQLSTATE 42501, insufficient_privilege; TB001 is our own "it is append-only".
const noPrivilege = "42501";
const byTrigger = "TB001";

let it: Scene;
beforeAll(async () => {
  it = await openScene();
});
afterAll(() => it.close());

const asApp = (text: string, values: unknown[] = []) =>
  refusalOf(act(it.app, asDentist(it.here), (client) => client.query(text, values)));
const asOwner = (text: string) => refusalOf(it.owner.query(text));

describe.each(appendOnly)("%s keeps every row as it was written", (table, change) => {
  const mine = () => `where practice_id = '${it.here.id}'`;

  test("it has rows, so that a refusal means something", async () => {
    expect(await count(it.owner, `${table} ${mine()}`)).toBeGreaterThan(0);
  });

  test("the application lacks the privilege to change, delete, truncate or lock them", async () => {
    expect(await asApp(`update ${table} set ${change} ${mine()}`)).toBe(noPrivilege);
    expect(await asApp(`delete from ${table} ${mine()}`)).toBe(noPrivilege);
    expect(await asApp(`truncate ${table} cascade`)).toBe(noPrivilege);
    expect(await asApp(`lock table ${table} in access exclusive mode`)).toBe(noPrivilege);
  });

  test("nor can the application get there by an upsert, a merge or a row lock", async () => {
    const [column] = change.split(" ");
    const again = `insert into ${table} select * from ${table} ${mine()}`;
    const upsert = `${again} on conflict on constraint ${table}_pk do update set ${change.replace(
      "quantity + 1",
      "excluded.quantity",
    )}`;
    expect(await asApp(upsert)).toBe(noPrivilege);
    const merge = `merge into ${table} t using (select 1 as one) s
      on t.practice_id = '${it.here.id}'
      when matched then update set ${column} = default`;
    expect(await asApp(merge)).toBe(noPrivilege);
    const removal = `merge into ${table} t using (select 1 as one) s
      on t.practice_id = '${it.here.id}' when matched then delete`;
    expect(await asApp(removal)).toBe(noPrivilege);
  });

  test("a trigger refuses even the owner", async () => {
    const state = table === "record" ? `${mine()} and state = 'signed'` : mine();
    expect(await asOwner(`update ${table} set ${change} ${state}`)).toBe(byTrigger);
    expect(await asOwner(`delete from ${table} ${mine()}`)).toBe(byTrigger);
    expect(await asOwner(`truncate ${table} cascade`)).toBe(byTrigger);
  });
});

test("a foreign key carries no deletion into them either", async () => {
  const { here } = it;
  const parents = [
    ["practice", `practice_id = '${here.id}'`],
    ["lot", `id = '${here.lot}'`],
    ["container", `id = '${here.container}'`],
    ["location", `id = '${here.places.store}'`],
    ["patient", `id = '${here.patient}'`],
    ["tray", `id = '${here.tray}'`],
  ] as const;
  for (const [table, which] of parents) {
    expect([table, await asOwner(`delete from ${table} where ${which}`)]).toEqual([
      table,
      expect.stringMatching(/_fk$|^TB001$/),
    ]);
  }
});
