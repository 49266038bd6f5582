import { createHash } from "node:crypto";
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type pg from "pg";
import { newId } from "../../apps/api/src/db/uuid.ts";
import {
  act,
  addEvent,
  addMaterial,
  addRecord,
  addTray,
  asAssistant,
  asDentist,
  override,
  refusalOf,
  sign,
  type Acting,
} from "./acts.ts";
import { openScene, type Scene } from "./scene.ts";

let it: Scene;
beforeAll(async () => {
  it = await openScene();
});
afterAll(() => it.close());

const inName = <T>(who: Acting, work: (client: pg.Client) => Promise<T>) => act(it.app, who, work);
const byDentist = <T>(work: (client: pg.Client) => Promise<T>) => inName(asDentist(it.here), work);
const newDraft = () =>
  byDentist(async (client) => addRecord(client, it.here, { tray: await addTray(client, it.here) }));

const newSigned = async () => {
  const record = await newDraft();
  await byDentist((client) => sign(client, it.here, { record }));
  return record;
};

describe("a record", () => {
  test("starts as a draft, for the patient, tooth and technique of its tray", async () => {
    const start = (told: Parameters<typeof addRecord>[2]) =>
      refusalOf(byDentist((client) => addRecord(client, it.here, { version: 900, ...told })));
    for (const state of ["signed", "superseded"]) {
      expect(await start({ state })).toBe("record_starts_as_draft");
    }
    expect(await start({ tooth: "17" })).toBe("record_as_its_tray");
    const of = { ...it.here, patient: newId() };
    const foreign = byDentist((client) => addRecord(client, of, { version: 900 }));
    expect(await refusalOf(foreign)).toBe("record_as_its_tray");
    const tray = it.there.tray;
    expect(await start({ tray })).toBe("record_as_its_tray");
  });

  test("of one version is there once a tray", async () => {
    const again = byDentist((client) => addRecord(client, it.here, { version: 1 }));
    expect(await refusalOf(again)).toBe("record_tray_version_once");
  });

  test("of a bonding visit builds on a signed seal of the same tooth alone", async () => {
    const bond = async (seal: string, visit = "bonding") => {
      const tray = await byDentist((client) => addTray(client, it.here));
      return refusalOf(byDentist((client) => addRecord(client, it.here, { tray, visit, seal })));
    };
    expect(await bond(it.here.signed)).toBe("not refused");
    expect(await bond(it.here.signed, "sealing")).toBe("record_seal_of_bonding");
    expect(await bond(it.here.draft)).toBe("record_seal_signed");
    expect(await bond(it.there.signed)).toBe("record_seal_signed");
  });

  test("of a bonding visit keeps in a later version a seal that was amended meanwhile", async () => {
    const seal = await newSigned();
    const tray = await byDentist((client) => addTray(client, it.here));
    const told = { tray, visit: "bonding", seal };
    const first = await byDentist((client) => addRecord(client, it.here, told));
    await byDentist((client) => sign(client, it.here, { record: first }));
    const { rows } = await it.owner.query<{ tray: string }>(
      "select tray_id as tray from record where id = $1",
      [seal],
    );
    const amended = { ...rows[0]!, version: 2, supersedes: seal };
    await byDentist((client) => addRecord(client, it.here, amended));
    const other = await byDentist((client) => addTray(client, it.here));
    const anew = byDentist((client) => addRecord(client, it.here, { ...told, tray: other }));
    expect(await refusalOf(anew)).toBe("record_seal_signed");
    const later = { ...told, version: 2, supersedes: first };
    const kept = byDentist((client) => addRecord(client, it.here, later));
    expect(await refusalOf(kept)).toBe("not refused");
  });

  test("is signed with the true hash of what is signed, and all at once", async () => {
    const record = await newDraft();
    const hash = createHash("sha256").update("something else").digest();
    const lie = byDentist((client) => sign(client, it.here, { record, hash }));
    expect(await refusalOf(lie)).toBe("record_hash_true");
    for (const half of [
      "signed_at = now()",
      `signed_by = '${it.here.dentist}'`,
      "hash = '\\x00'",
    ]) {
      const text = `update record set state = 'signed', ${half} where id = $1`;
      const partly = byDentist((client) => client.query(text, [record]));
      expect(await refusalOf(partly)).toMatch(
        /^record_signature_whole$|^record_signed_by_dentist$/,
      );
      const quietly = `update record set ${half} where id = $1`;
      expect(await refusalOf(byDentist((client) => client.query(quietly, [record])))).toMatch(
        /^record_signature_whole$|^TB001$/,
      );
    }
  });

  test("is signed by a dentist in person", async () => {
    const record = await newDraft();
    const { here, there } = it;
    const cases: [Acting, string][] = [
      [asAssistant(here), here.assistant],
      [asAssistant(here), here.dentist],
      [asDentist(here), here.assistant],
      [{ practice: here, person: there.dentist }, there.dentist],
    ];
    for (const [who, by] of cases) {
      const signed = inName(who, (client) => sign(client, here, { record, by }));
      expect(await refusalOf(signed)).toBe("record_signed_by_dentist");
    }
    await byDentist((client) => sign(client, here, { record }));
  });

  test("once signed changes in nothing, not even by its owner", async () => {
    const record = await newSigned();
    const { rows } = await it.owner.query<{ name: string; type: string }>(
      `select attname as name, format_type(atttypid, atttypmod) as type from pg_attribute
       where attrelid = 'record'::regclass and attnum > 0 and not attisdropped`,
    );
    expect(rows.length).toBeGreaterThan(15);
    const other: Record<string, string> = {
      uuid: `'${newId()}'`,
      text: "'something else'",
      integer: "77",
      jsonb: `'{"verdict": "other"}'`,
      bytea: "'\\x00'",
      "timestamp with time zone": "'2001-01-01'",
    };
    for (const { name, type } of rows) {
      const text = `update record set ${name} = ${other[type]!} where id = $1`;
      expect([name, await refusalOf(it.owner.query(text, [record]))]).toEqual([name, "TB001"]);
    }
    const back = `update record set state = 'draft', signed_by = null, signed_at = null,
      canonical = null, hash = null where id = $1`;
    expect(await refusalOf(byDentist((client) => client.query(back, [record])))).toBe("TB001");
    expect(await refusalOf(it.owner.query(back, [record]))).toBe("TB001");
    expect(await refusalOf(byDentist((client) => sign(client, it.here, { record })))).toBe("TB001");
  });

  test("as a draft keeps what it started from", async () => {
    const record = await newDraft();
    for (const what of ["verdict = '{\"a\": 1}'", "tooth = '17'", "supersedes_id = id"]) {
      const text = `update record set ${what} where id = $1`;
      expect(await refusalOf(it.owner.query(text, [record]))).toBe("TB001");
      expect(await refusalOf(byDentist((client) => client.query(text, [record])))).toBe("42501");
    }
  });
});

describe("what is written to a record", () => {
  test("ends with the signature", async () => {
    const record = await newSigned();
    const event = byDentist((client) => addEvent(client, it.here, { record, sequence: 1 }));
    expect(await refusalOf(event)).toBe("record_is_draft");
    const material = byDentist((client) => addMaterial(client, it.here, { record }));
    expect(await refusalOf(material)).toBe("record_is_draft");
  });

  test("is of the record's own patient and tooth, and of its own practice", async () => {
    const record = await newDraft();
    const add = (told: { patient?: string; tooth?: string; record?: string }) =>
      refusalOf(byDentist((client) => addMaterial(client, it.here, { record, ...told })));
    expect(await add({ tooth: "26" })).toBe("step_material_as_its_record");
    expect(await add({ patient: it.there.patient })).toBe("step_material_as_its_record");
    expect(await add({ record: it.there.draft })).toBe("record_is_draft");
  });

  test("names container and lot together, or a reason instead of both", async () => {
    const record = await newDraft();
    const add = (container: string | null, lot: string | null, reason: string | null) =>
      refusalOf(
        byDentist((client) =>
          client.query(
            `insert into step_material (practice_id, id, record_id, step_key, product_id, lot_id,
               container_id, not_scanned_reason, patient_id, tooth, used_at, person_id)
             values ($1, $2, $3, 'prime', $4, $5, $6, $7, $8, '16', now(), $9)`,
            [
              ...[it.here.id, newId(), record, it.here.product, lot, container, reason],
              ...[it.here.patient, it.here.dentist],
            ],
          ),
        ),
      );
    const { container, lot } = it.here;
    expect(await add(null, null, null)).toBe("step_material_scanned_or_reason");
    expect(await add(container, null, null)).toBe("step_material_scanned_or_reason");
    expect(await add(null, lot, "label torn")).toBe("step_material_scanned_or_reason");
    expect(await add(container, lot, "label torn")).toBe("step_material_scanned_or_reason");
    expect(await add(container, newId(), null)).toBe("step_material_container_fk");
    expect(await add(null, null, "label torn")).toBe("not refused");
    expect(await add(container, lot, null)).toBe("not refused");
    expect(await add(container, lot, null)).toBe("step_material_once");
  });

  test("comes before the signature or is refused, when both come at once", async () => {
    const clients = await Promise.all(Array.from({ length: 8 }, () => it.connect()));
    for (let round = 0; round < 10; round++) {
      const record = await newDraft();
      const [signer, ...writers] = clients as [pg.Client, ...pg.Client[]];
      const writing = writers.map((client, i) =>
        refusalOf(
          act(client, asDentist(it.here), (each) =>
            addEvent(each, it.here, { record, sequence: i + 1 }),
          ),
        ),
      );
      // As the server signs: it holds the record, then reads what it seals.
      const signing = act(signer, asDentist(it.here), async (client) => {
        await client.query("select 1 from record where practice_id = $1 and id = $2 for update", [
          ...[it.here.id, record],
        ]);
        await sign(client, it.here, { record });
      });
      await signing;
      const answers = await Promise.all(writing);
      for (const answer of answers) expect(answer).toMatch(/^(not refused|record_is_draft)$/);
      const { rows } = await it.owner.query<{ true_seal: boolean }>(
        `select canonical::jsonb ->> 'rows'
           = encode(sha256(convert_to(record_rows(practice_id, id), 'UTF8')), 'hex') as true_seal
         from record where id = $1`,
        [record],
      );
      expect([round, rows[0]!.true_seal]).toEqual([round, true]);
    }
  });

  test("is signed once, by whoever comes first", async () => {
    const record = await newDraft();
    const clients = await Promise.all(Array.from({ length: 8 }, () => it.connect()));
    const answers = await Promise.all(
      clients.map((client) =>
        refusalOf(act(client, asDentist(it.here), (each) => sign(each, it.here, { record }))),
      ),
    );
    expect(answers.sort()).toEqual([...Array.from({ length: 7 }, () => "TB001"), "not refused"]);
  });
});

describe("a stop", () => {
  const pass = (who: Acting, person: string, subject: string = newId()) =>
    refusalOf(inName(who, (client) => override(client, it.here, { person, subject })));

  test("is passed by a dentist of the practice, in his or her own name", async () => {
    const { here, there } = it;
    const refused = "finding_override_by_dentist";
    expect(await pass(asAssistant(here), here.assistant)).toBe(refused);
    expect(await pass(asAssistant(here), here.dentist)).toBe(refused);
    expect(await pass(asDentist(here), here.assistant)).toBe(refused);
    expect(await pass({ practice: here, person: there.dentist }, there.dentist)).toBe(refused);
    expect(await pass(asDentist(here), here.dentist)).toBe("not refused");
  });

  test("is not passed by the owner of the tables, who is nobody in person", async () => {
    const attempt = override(it.owner, it.here, { person: it.here.dentist, subject: newId() });
    expect(await refusalOf(attempt)).toBe("finding_override_by_dentist");
  });

  test("is passed once, with a reason of some length", async () => {
    const subject = newId();
    expect(await pass(asDentist(it.here), it.here.dentist, subject)).toBe("not refused");
    expect(await pass(asDentist(it.here), it.here.dentist, subject)).toBe("finding_override_once");
    const curt = byDentist((client) =>
      client.query(
        `insert into finding_override values ($1, $2, $3, 'missing', 'x', '{}', ' ok  ',
           $4, now())`,
        [it.here.id, newId(), it.here.tray, it.here.dentist],
      ),
    );
    expect(await refusalOf(curt)).toBe("finding_override_reason_given");
  });
});

describe("the teeth of a tray", () => {
  const addTooth = (tray: string, tooth: string, place: number) =>
    refusalOf(
      byDentist((client) =>
        client.query("insert into tray_tooth values ($1, $2, $3, $4)", [
          ...[it.here.id, tray, tooth, place],
        ]),
      ),
    );

  test("are real, each there once and at a place of its own", async () => {
    const tray = await byDentist((client) => addTray(client, it.here));
    expect(await addTooth(tray, "19", 2)).toBe("tray_tooth_known");
    expect(await addTooth(tray, "17", 1)).toBe("tray_tooth_place_once");
    expect(await addTooth(tray, "16", 2)).toBe("tray_tooth_pk");
    expect(await addTooth(tray, "17", 2)).toBe("not refused");
  });

  test("stay as they are once priming has started", async () => {
    const tray = await byDentist((client) => addTray(client, it.here));
    await byDentist((client) =>
      client.query("update tray set state = 'in-use' where practice_id = $1 and id = $2", [
        ...[it.here.id, tray],
      ]),
    );
    expect(await addTooth(tray, "17", 2)).toBe("tray_tooth_before_priming");
    for (const change of ["delete from tray_tooth", "update tray_tooth set mode = 'self-etch'"]) {
      const changed = byDentist((client) =>
        client.query(`${change} where practice_id = $1 and tray_id = $2`, [it.here.id, tray]),
      );
      expect(await refusalOf(changed)).toBe("tray_tooth_before_priming");
    }
  });
});
