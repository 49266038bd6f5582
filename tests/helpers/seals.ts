/** Teeth that are sealed, and bonded later, through the API as a practice would. */
import type { AnswerOf, BodyOf } from "#contracts/operations";
import type { ProductKind } from "#domain";
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

/** Moves the moment at which a record began; no way of the program's does that. */
export const beginAt = (it: Pick<TestApp, "database">, recordId: string, at: string) =>
  asOwner(
    it.database,
    `begin; set local session_replication_role = 'replica';
     update record set started_at = '${at}' where id = '${recordId}'; commit`,
  );
