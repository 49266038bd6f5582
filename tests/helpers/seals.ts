/** Teeth that are sealed, and bonded later, through the API as a practice would. */
import type { AnswerOf, BodyOf } from "#contracts/operations";
import type { ProductKind } from "#domain";
import { newId } from "../../apps/api/src/db/uuid.ts";
import type { TestApp } from "./app.ts";
import { asOwner } from "./database.ts";
import type { Maker, MadeProduct } from "./make.ts";

const steps = (
  [
    ["coat", "flowable"],
    ["separate", "separating-agent"],
    ["provisional", "provisional-cement"],
  ] as const satisfies readonly (readonly [string, ProductKind])[]
).map(([key, kind]) => ({ key, name: key, accepts: [kind], required: false }));

const techniques = new WeakMap<Maker, Promise<string>>();
/** A technique of few words: isolate, and whatever of the rest has a container. */
function techniqueOf(make: Maker): Promise<string> {
  const known = techniques.get(make);
  if (known !== undefined) return known;
  const first = { key: "isolate", name: "isolate", accepts: [], required: true };
  const body = { name: make.name("T"), visit: "sealing" as const, steps: [first, ...steps] };
  const added = make.practice.dentist.call("addTechnique", { body }).then(({ ok }) => ok.id);
  techniques.set(make, added);
  return added;
}

export interface SealTold {
  plan?: Partial<BodyOf<"planTray">>;
  tooth?: NonNullable<BodyOf<"planTray">>["teeth"][number];
  products?: readonly MadeProduct[];
  events?: readonly BodyOf<"addRecordEvent">[];
}

/** A tooth sealed, signed, and its tray cleared: the record as signed. */
export async function sealTooth(make: Maker, told: SealTold = {}): Promise<AnswerOf<"signRecord">> {
  const { plan = {}, tooth = { tooth: "16" }, products = [], events = [] } = told;
  const { dentist, assistant } = make.practice;
  const techniqueId = await techniqueOf(make);
  const { id: trayId } = await make.tray({ techniqueId, teeth: [tooth], ...plan });
  for (const product of products) {
    await make.scanned(trayId, (await make.received(product)).first.code);
  }
  const record = await make.worked(await make.started(trayId));
  for (const body of events) {
    await dentist.call("addRecordEvent", { params: { recordId: record.id }, body });
  }
  const signed = await make.signed(record.id);
  await assistant.call("clearTray", { params: { trayId }, body: {} });
  return signed;
}

/** A bonding visit worked and signed: the record as signed. */
export async function bondTooth(
  make: Maker,
  told: { chartNumber: string; tooth?: string; seals?: BodyOf<"startRecord">["seals"] },
): Promise<AnswerOf<"signRecord">> {
  const { tooth = "16", seals, chartNumber } = told;
  const { trayId } = await make.smallTray({ chartNumber, teeth: [{ tooth }] });
  const given = seals ? { params: { trayId }, body: { seals } } : await make.starting(trayId);
  const { records } = (await make.practice.dentist.call("startRecord", given)).ok;
  await make.worked(records[0]!);
  const signed = await make.signed(records[0]!.id);
  await make.practice.assistant.call("clearTray", { params: { trayId }, body: {} });
  return signed;
}

/**
 * A later version of a signed record, signed, as the database takes it: an addition with all that
 * the one before says, a correction that leaves all of it out.
 */
export async function amend(
  it: Pick<TestApp, "database">,
  recordId: string,
  told: { amends: "addition" | "correction"; sealId?: string | null },
): Promise<string> {
  const id = newId();
  const { amends, sealId = null } = told;
  const run = (text: string, ...values: unknown[]) =>
    asOwner(it.database, text, [recordId, id, ...values]);
  await run(
    `insert into record (practice_id, id, tray_id, patient_id, tooth, technique_id, visit, state,
       version, supersedes_id, verdict, started_by, started_at, amends, amend_reason, seal_id)
     select practice_id, $2, tray_id, patient_id, tooth, technique_id, visit, 'draft', version + 1,
       id, verdict, started_by, started_at, $3, 'asked for by the test', $4
     from record where id = $1`,
    amends,
    sealId,
  );
  if (amends === "addition") {
    await run(
      `insert into step_material (practice_id, id, record_id, step_key, product_id, lot_id,
         container_id, not_scanned_reason, patient_id, tooth, used_at, person_id)
       select practice_id, gen_random_uuid(), $2, step_key, product_id, lot_id, container_id,
         not_scanned_reason, patient_id, tooth, used_at, person_id
       from step_material where record_id = $1`,
    );
  }
  // The earlier version's end, and the dentist's signature.
  await asOwner(
    it.database,
    `begin; set local session_replication_role = 'replica';
     update record set state = 'superseded' where id = '${recordId}';
     update record n set state = 'signed', signed_by = o.signed_by, signed_at = o.signed_at,
       canonical = o.canonical, hash = o.hash
     from record o where n.id = '${id}' and o.id = '${recordId}'; commit`,
  );
  return id;
}

/** Moves the moment at which a record began; no way of the program's does that. */
export const beginAt = (it: Pick<TestApp, "database">, recordId: string, at: string) =>
  asOwner(
    it.database,
    `begin; set local session_replication_role = 'replica';
     update record set started_at = '${at}' where id = '${recordId}'; commit`,
  );
