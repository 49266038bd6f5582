import { createHash } from "node:crypto";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "@jest/globals";
import type pg from "pg";
import { chooseSeed, seeded, type Seeded } from "../helpers/seeded.ts";
import { act, asDentist, audit, tamper } from "./acts.ts";
import { openScene, type Scene } from "./scene.ts";
import { openVerifier, type Verifier } from "./verification.ts";

let it: Scene;
let verifier: Verifier;
/** How many entries the chain has. */
let length: number;

beforeAll(async () => {
  it = await openScene();
  verifier = await openVerifier(it);
  await act(it.app, asDentist(it.here), async (client) => {
    for (let i = 1; i <= 24; i++) {
      const entry = { person: it.here.dentist, action: "tried", subject: `tray:${i}` };
      await audit(client, it.here, { ...entry, change: { i, text: "ä\n\u2028😀" } });
    }
  });
  const chain = "from audit_entry where practice_id = $1";
  const { rows } = await it.owner.query<{ n: number }>(`select count(*)::int as n ${chain}`, [
    it.here.id,
  ]);
  length = rows[0]!.n;
  await it.owner.query("create table kept_entry as select * from audit_entry");
  await it.owner.query("create table kept_head as select * from audit_head");
});
afterAll(async () => {
  await verifier.close();
  await it.close();
});

const restore = () =>
  tamper(it.owner, async (owner) => {
    await owner.query("delete from audit_entry");
    await owner.query("delete from audit_head");
    await owner.query("insert into audit_entry select * from kept_entry");
    await owner.query("insert into audit_head select * from kept_head");
  });
beforeEach(restore);

const fault = async () => (await verifier.verify(it.here)).fault;

interface Entry {
  practice_id: string;
  sequence: number;
  at: Date;
  person_id: string | null;
  device_id: string | null;
  action: string;
  subject: string;
  change: string;
  previous_hash: Buffer;
  hash: Buffer;
}
const nth = async (owner: pg.Client, sequence: number): Promise<Entry> => {
  const { rows } = await owner.query<Entry>(
    "select * from audit_entry where practice_id = $1 and sequence = $2",
    [it.here.id, sequence],
  );
  return { ...rows[0]!, sequence };
};
/** The hash as it is written in the design: SHA-256 of the hash before and one field a line. */
const hashOf = (entry: Entry): Buffer =>
  createHash("sha256")
    .update(entry.previous_hash)
    .update(
      [
        ...[entry.practice_id, entry.sequence, entry.at.toISOString()],
        ...[entry.person_id ?? "", entry.device_id ?? ""],
        ...[entry.action, entry.subject, entry.change],
      ].join("\n"),
    )
    .digest();
/** What is set may be followed by its values, from $3 on. */
const set = (owner: pg.Client, sequence: number, [what, ...values]: [string, ...unknown[]]) =>
  owner.query(`update audit_entry set ${what} where practice_id = $1 and sequence = $2`, [
    ...[it.here.id, sequence, ...values],
  ]);
const insert = (owner: pg.Client, entry: Entry) =>
  owner.query("insert into audit_entry values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)", [
    ...[entry.practice_id, entry.sequence, entry.at, entry.person_id, entry.device_id],
    ...[entry.action, entry.subject, entry.change, entry.previous_hash, entry.hash],
  ]);
const shift = async (owner: pg.Client, from: number, by: number) => {
  // In two steps: one by one, a number would meet its neighbour.
  const mine = "where practice_id = $1 and sequence";
  const { id } = it.here;
  await owner.query(`update audit_entry set sequence = sequence + 1000000 ${mine} >= $2`, [
    id,
    from,
  ]);
  await owner.query(
    `update audit_entry set sequence = sequence - 1000000 + $2 ${mine} >= 1000000`,
    [id, by],
  );
};

/** Each takes an entry's number, alters the chain, and gives the number of the first bad entry. */
type Attack = (owner: pg.Client, k: number, random: Seeded) => Promise<number>;

const columns: Record<string, string> = {
  at: "at = at + interval '1 millisecond'",
  "person to another": "person_id = gen_random_uuid()",
  "person to nobody": "person_id = null",
  device: "device_id = gen_random_uuid()",
  action: "action = action || 'x'",
  subject: "subject = subject || 'x'",
  change: "change = change || ' '",
  "previous hash": "previous_hash = set_byte(previous_hash, 7, get_byte(previous_hash, 7) # 1)",
  hash: "hash = set_byte(hash, 31, get_byte(hash, 31) # 128)",
};

const attacks: Record<string, Attack> = {
  ...Object.fromEntries(
    Object.entries(columns).map(([name, what]): [string, Attack] => [
      `change ${name}`,
      async (owner, k) => {
        await set(owner, k, [what]);
        return k;
      },
    ]),
  ),
  "delete one": async (owner, k) => {
    await owner.query("delete from audit_entry where practice_id = $1 and sequence = $2", [
      ...[it.here.id, k],
    ]);
    return k;
  },
  "delete one and close the gap": async (owner, k) => {
    await owner.query("delete from audit_entry where practice_id = $1 and sequence = $2", [
      ...[it.here.id, k],
    ]);
    await shift(owner, k + 1, -1);
    return k;
  },
  "cut the tail off": async (owner, k) => {
    await owner.query("delete from audit_entry where practice_id = $1 and sequence >= $2", [
      ...[it.here.id, k],
    ]);
    return k;
  },
  "exchange two": async (owner, k, random) => {
    const other = 1 + ((k - 1 + 1 + random.int(length - 1)) % length);
    await set(owner, k, ["sequence = 1000000"]);
    await set(owner, other, ["sequence = $3", k]);
    await set(owner, 1_000_000, ["sequence = $3", other]);
    return Math.min(k, other);
  },
  "exchange what two say": async (owner, k, random) => {
    const other = 1 + ((k - 1 + 1 + random.int(length - 1)) % length);
    const [one, two] = [await nth(owner, k), await nth(owner, other)];
    const say = "action = $3, subject = $4, change = $5";
    await set(owner, k, [say, two.action, two.subject, two.change]);
    await set(owner, other, [say, one.action, one.subject, one.change]);
    return Math.min(k, other);
  },
  "slip one in that is hashed rightly": async (owner, k) => {
    const old = await nth(owner, k);
    await shift(owner, k, 1);
    const forged = { ...old, change: '{"forged":true}' };
    await insert(owner, { ...forged, hash: hashOf(forged) });
    return k;
  },
  "add one behind the end that is hashed rightly": async (owner) => {
    const last = await nth(owner, length);
    const forged = { ...last, sequence: length + 1, previous_hash: last.hash };
    await insert(owner, { ...forged, hash: hashOf(forged) });
    return length + 1;
  },
  "replace one and hash it rightly": async (owner, k) => {
    const forged = { ...(await nth(owner, k)), change: '{"forged":true}' };
    await set(owner, k, ["change = $3, hash = $4", forged.change, hashOf(forged)]);
    return k;
  },
};

test("an untouched chain is whole, with its length and its head", async () => {
  const answer = await verifier.verify(it.here);
  expect(answer).toMatchObject({ ok: true, fault: null, entries: length });
  expect(answer.head).toBe((await nth(it.owner, length)).hash.toString("hex"));
  expect(await verifier.verify(it.there)).toMatchObject({ ok: true, fault: null });
});

describe.each(Object.entries(attacks))("to %s", (_name, attack) => {
  test("is found at the first, at a middle and at the last entry", async () => {
    for (const k of [1, 2, Math.floor(length / 2), length]) {
      await restore();
      const bad = await tamper(it.owner, (owner) => attack(owner, k, seeded(k)));
      expect([k, await fault()]).toEqual([k, { sequence: bad, what: expect.any(String) }]);
    }
  });
});

test("200 random attacks are found, each with its first bad entry", async () => {
  const random = seeded(chooseSeed());
  const names = Object.keys(attacks);
  for (let round = 0; round < 200; round++) {
    await restore();
    const name = random.pick(names);
    const k = 1 + random.int(length);
    const bad = await tamper(it.owner, (owner) => attacks[name]!(owner, k, random));
    const told = { seed: random.seed, round, name, k };
    expect([told, (await verifier.verify(it.here)).ok]).toEqual([told, false]);
    expect([told, (await fault())?.sequence]).toEqual([told, bad]);
  }
}, 60_000);

describe("what the rows alone cannot hide", () => {
  test("a missing head is found, with and without the entries", async () => {
    await tamper(it.owner, (owner) => owner.query("delete from audit_head"));
    expect(await fault()).toEqual({
      sequence: length + 1,
      what: "the head of the chain is missing",
    });
    await tamper(it.owner, (owner) => owner.query("delete from audit_entry"));
    expect(await fault()).toEqual({ sequence: 1, what: "the head of the chain is missing" });
  });

  test("an entry moved to another practice breaks both chains", async () => {
    await tamper(it.owner, (owner) =>
      owner.query(
        `update audit_entry set practice_id = $3, sequence = 2
         where practice_id = $1 and sequence = $2`,
        [it.here.id, length, it.there.id],
      ),
    );
    expect((await fault())?.sequence).toBe(length);
    expect((await verifier.verify(it.there)).fault?.sequence).toBe(2);
  });

  test("a tail that was rewritten to the end is found by the head, where it was last true", async () => {
    await tamper(it.owner, (owner) => rewriteFrom(owner, 5));
    expect(await fault()).toEqual({
      sequence: length,
      what: "it is not the entry that the head was made from",
    });
  });

  test("a tail rewritten with its head is whole in itself: only a head kept elsewhere tells", async () => {
    const { head: keptElsewhere } = await verifier.verify(it.here);
    await tamper(it.owner, async (owner) => {
      await rewriteFrom(owner, 5);
      const { hash } = await nth(owner, length);
      await owner.query("update audit_head set hash = $2 where practice_id = $1", [
        ...[it.here.id, hash],
      ]);
    });
    const answer = await verifier.verify(it.here);
    expect(answer.fault).toBeNull();
    expect(answer.head).not.toBe(keptElsewhere);
  });

  test("a field cannot hold a line break, nor an instant a part that is not hashed", async () => {
    for (const what of ["action = E'a\\nb'", "subject = E'a\\rb'", "change = E'{\\n}'"]) {
      const broken = tamper(it.owner, (owner) => set(owner, 3, [what]));
      await expect(broken).rejects.toThrow("audit_entry_one_line");
    }
    const before = await nth(it.owner, 3);
    await tamper(it.owner, (owner) => set(owner, 3, ["at = at + interval '400 microseconds'"]));
    expect(await nth(it.owner, 3)).toEqual(before);
    expect(await fault()).toBeNull();
  });
});

async function rewriteFrom(owner: pg.Client, first: number): Promise<void> {
  let previous = (await nth(owner, first - 1)).hash;
  for (let k = first; k <= length; k++) {
    const entry = { ...(await nth(owner, k)), previous_hash: previous };
    if (k === first) entry.change = '{"forged":true}';
    previous = hashOf(entry);
    const values = [entry.change, entry.previous_hash, previous];
    await set(owner, k, ["change = $3, previous_hash = $4, hash = $5", ...values]);
  }
}

test("a chain of more than one page is read on from where the page ended", async () => {
  await act(it.app, asDentist(it.there), (client) =>
    client.query(
      `select count(append_audit($1, $2, null, now(), 'tried', 'tray:' || n, '{"n":' || n || '}'))
       from generate_series(1, 5003) n`,
      [it.there.id, it.there.dentist],
    ),
  );
  const whole = await verifier.verify(it.there);
  expect(whole).toMatchObject({ fault: null, ok: true });
  expect(whole.entries).toBeGreaterThan(5_003);
  for (const k of [4_999, 5_000, 5_001]) {
    const flip = (owner: pg.Client) =>
      owner.query(
        `update audit_entry set subject = 'x' || subject where practice_id = $1 and sequence = $2`,
        [it.there.id, k],
      );
    const back = (owner: pg.Client) =>
      owner.query(
        `update audit_entry set subject = substr(subject, 2)
         where practice_id = $1 and sequence = $2`,
        [it.there.id, k],
      );
    await tamper(it.owner, flip);
    expect((await verifier.verify(it.there)).fault?.sequence).toBe(k);
    await tamper(it.owner, back);
  }
}, 60_000);
