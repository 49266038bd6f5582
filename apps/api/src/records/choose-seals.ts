import { civilDateAt } from "#domain";
import type { StartRecord } from "#contracts/records";
import type { Tx } from "../db/transaction.ts";
import { notFound, Problem } from "../http/problem.ts";
import type { TrayHead } from "../trays/tray-facts.store.ts";
import { listSealsForTray, type ToothSealRow } from "../waiting/waiting.store.ts";

/**
 * The seal that each tooth of a bonding visit builds on, null for none: what the dentist said, else
 * the only one that waits. None or several are for a person to decide.
 */
export async function chooseSeals(
  tx: Tx,
  { id, visit, teeth }: TrayHead,
  told: StartRecord["seals"],
): Promise<ReadonlyMap<string, string | null>> {
  told.forEach(({ tooth }, index) => {
    const isOfVisit = visit === "bonding" && teeth.some((one) => one.tooth === tooth);
    const isAgain = told.findIndex((one) => one.tooth === tooth) < index;
    if (!isOfVisit || isAgain) throw notOfVisit(index, tooth);
  });
  if (visit !== "bonding") return new Map();
  const seals = await listSealsForTray(tx, id);
  const chosen = new Map<string, string | null>();
  const open: { tooth: string; seals: ToothSealRow[] }[] = [];
  for (const { tooth } of teeth) {
    const ofTooth = seals.filter((seal) => seal.tooth === tooth);
    const said = told.find((one) => one.tooth === tooth);
    const waiting = ofTooth.filter(({ bonded, off }) => !bonded && !off);
    if (said !== undefined)
      chosen.set(tooth, said.sealId && getSeal(seals, { tooth, id: said.sealId }));
    else if (waiting.length === 1) chosen.set(tooth, waiting[0]!.id);
    else open.push({ tooth, seals: waiting });
  }
  if (open.length > 0) throw notChosen(tx, open);
  return chosen;
}

/** Whichever version was named, the newest signed one is built on. */
export function getSeal(
  seals: readonly ToothSealRow[],
  { tooth, id }: { tooth: string; id: string },
): string {
  const found = seals.find((seal) => seal.tooth === tooth && seal.versions.includes(id));
  if (!found) throw notFound("signed sealing record of this tooth");
  return found.id;
}

const notOfVisit = (index: number, tooth: string) =>
  new Problem("invalid-request", `Tooth ${tooth} is not, or not once, a tooth to be bonded here.`, {
    errors: [
      { path: `/body/seals/${index}/tooth`, message: "each tooth of the bonding visit once" },
    ],
  });

function notChosen(tx: Tx, open: readonly { tooth: string; seals: ToothSealRow[] }[]): Problem {
  const sentences = open.map(({ tooth, seals }) => {
    const days = seals.map((seal) => civilDateAt(seal.sealed_at.toISOString(), tx.actor.timeZone));
    return seals.length === 0
      ? `No seal of tooth ${tooth} waits.`
      : `Tooth ${tooth} has several: of ${days.join(", ")}.`;
  });
  const teeth = open.map(({ tooth, seals }) => ({ tooth, seals: seals.map(({ id }) => id) }));
  const what = "Choose the seal that is bonded to, or say that there is none.";
  return new Problem("seal-not-chosen", `${sentences.join(" ")} ${what}`, { teeth });
}
