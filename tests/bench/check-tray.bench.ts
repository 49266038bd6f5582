/**
 * How long the check before priming takes. Bars: under 0.1 ms for a tray of 12 containers against
 * 12 steps, and 5,000 trays in under a second, so that every planned tray can be checked again when
 * a withdrawal arrives. Beside it, in the same run, what copying the same facts through JSON costs.
 */
import { checkTray, productKinds, type ProductFacts, type TrayFacts } from "#domain";
import {
  aContainer,
  aProduct,
  aStep,
  aTechnique,
  aTray,
  anItem,
  checkedAt,
} from "../../libs/domain/facts.fixture.ts";

import { lampB } from "../../libs/domain/troubled-visits.fixture.ts";

export const name = "check-tray";

const kinds = productKinds.filter((kind) => kind !== "etchant");

function makeProduct(kind: ProductFacts["kind"]): ProductFacts {
  return aProduct({
    id: `product-${kind}`,
    kind,
    solvents: ["ethanol", "water"],
    strategy: "universal",
    airDrySeconds: 10,
    radiantExposureJCm2: 8,
    warmUpMinutes: 15,
    fillerPercent: 70,
    inUseLife: { count: 6, unit: "month" },
  });
}

/** A tray of 12 open containers, one for each of 12 steps, beside a shelf of 60. */
function makeTray(trayNumber: number, inOrder: boolean): TrayFacts {
  const id = (what: string, index: number): string =>
    `01900000-0000-7000-8000-${String(trayNumber).padStart(6, "0")}${what}${10 + index}`;
  const products = kinds.map(makeProduct);
  const steps = kinds.map((kind) =>
    aStep(kind, {
      solventsAllowed: ["ethanol", "water"],
      airDrySeconds: inOrder ? 10 : 9,
      cureSeconds: 20,
      lightDistanceTenthMm: 20,
      minFillerPercent: 60,
    }),
  );
  const items = products.map((product, index) =>
    anItem(product, {
      id: id("aaaa", index),
      container: { id: id("bbbb", index), openedOn: "2026-11-01", state: "open" },
      leftRefrigeratorAt: "2026-11-25T08:00:00Z",
      withdrawals: inOrder ? [] : [{ id: "w", reference: "W-2026-1" }],
    }),
  );
  const shelf = Array.from({ length: 60 }, (_, index) => {
    const product = products[index % products.length] ?? makeProduct("adhesive");
    return { product, container: aContainer({ id: id("cccc", index), productId: product.id }) };
  });
  const appointmentAt = new Date(Date.UTC(2026, 11, 2) + trayNumber * 60_000).toISOString();
  const technique = aTechnique({ steps });
  return aTray({ technique, items, shelf, appointmentAt, light: lampB });
}

function timeEach(trays: readonly TrayFacts[], work: (facts: TrayFacts) => unknown): number {
  for (const facts of trays.slice(0, 2000)) work(facts);
  // CPU time: a busy machine must not make a slow check.
  const before = process.cpuUsage();
  for (const facts of trays) work(facts);
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000 / trays.length;
}

const show = (milliseconds: number): string => `${milliseconds.toFixed(4)} ms`;

/** Prints the milliseconds of CPU a check beside the baseline. */
export async function run(): Promise<void> {
  const inOrder = Array.from({ length: 5000 }, (_, number) => makeTray(number, true));
  const inTrouble = Array.from({ length: 5000 }, (_, number) => makeTray(number, false));
  const [first] = inTrouble;
  const found = first === undefined ? 0 : checkTray(first, checkedAt).findings.length;

  const copy = timeEach(inOrder, (facts) => JSON.parse(JSON.stringify(facts)));
  const clear = timeEach(inOrder, (facts) => checkTray(facts, checkedAt));
  const stop = timeEach(inTrouble, (facts) => checkTray(facts, checkedAt));

  console.log(`12 containers, 12 steps, 60 on the shelf, 5,000 trays, Node ${process.version}`);
  console.log(`  copy of the facts through JSON   ${show(copy)}   baseline`);
  console.log(`  check, tray in order             ${show(clear)}   ${(copy / clear).toFixed(1)} x`);
  console.log(
    `  check, ${found} findings               ${show(stop)}   ${(copy / stop).toFixed(1)} x`,
  );
  console.log(`  5,000 trays in order             ${(clear * 5).toFixed(2)} s (bar 1 s)`);
  console.log(`  bar 0.1 ms a check: ${(clear / 0.1).toFixed(2)} of it used`);
}
