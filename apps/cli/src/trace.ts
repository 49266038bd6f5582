import { showContainerCode } from "#domain";
import type { Trace, TracedLot } from "#contracts/withdrawals";
import { TraceQuery } from "#contracts/withdrawals";
import { TraceService } from "../../api/src/withdrawals/trace.service.ts";
import { choosePractice, onDatabase } from "./on-database.ts";
import { Refused } from "./usage.ts";

interface TraceOptions {
  lot?: string;
  identifier?: string;
  container?: string;
  practice?: string;
  json?: boolean;
}

export async function trace({ json, practice, ...asked }: TraceOptions): Promise<void> {
  const query = TraceQuery.safeParse(asked);
  if (!query.success) throw new Refused("Say --lot, --identifier or --container.");
  const answer = await onDatabase(async ({ db, ownerUrl }) => {
    const one = await choosePractice(ownerUrl, practice);
    const told = { actor: one.actor, at: new Date(), query: query.data };
    return new TraceService(db).traceStock(told);
  });
  process.stdout.write(json ? `${JSON.stringify(answer)}\n` : `${sayTrace(answer)}\n`);
}

function sayTrace({ lots, lookAlikes }: Trace): string {
  const found = lots.length === 0 ? ["No such lot was ever received here."] : lots.map(sayLot);
  const alike = lookAlikes.map(({ lot, productName }) => `  ${lot}  ${productName}`);
  if (alike.length === 0) return found.join("\n\n");
  return [
    ...found,
    ["Lots that could be misread for it (not included):", ...alike].join("\n"),
  ].join("\n\n");
}

function sayLot(lot: TracedLot): string {
  const { balance } = lot;
  const here = lot.here.map(
    ({ location, quantity, containers }) =>
      `  ${location.name}: ${quantity} (${containers.map(({ code }) => showContainerCode(code)).join(", ")})`,
  );
  const planned = lot.planned.map(
    (each) => `  ${each.appointmentAt}  chart ${each.chartNumber}, tooth ${each.tooth}`,
  );
  const teeth = lot.teeth.map(
    (each) =>
      `  ${each.certainty}: chart ${each.chartNumber}, tooth ${each.tooth}, ${each.stepKey}, ` +
      `${each.usedAt.slice(0, 10)}${each.containerCode ? `, ${showContainerCode(each.containerCode)}` : ""}`,
  );
  const section = (title: string, lines: string[]) => [
    `${title}: ${lines.length === 0 ? "none" : ""}`.trimEnd(),
    ...lines,
  ];
  return [
    `${lot.product.name}, lot ${lot.lot}${lot.withdrawn ? ", WITHDRAWN" : ""}`,
    ...section("Here", here),
    ...section("Planned", planned),
    ...section(`Teeth (${lot.patients} patients)`, teeth),
    `Balance: received ${balance.received} = on hand ${balance.onHand} + quarantined ` +
      `${balance.quarantined} + used up ${balance.usedUp} + discarded ${balance.discarded} + ` +
      `returned ${balance.returned} + unaccounted ${balance.unaccounted}`,
  ].join("\n");
}
