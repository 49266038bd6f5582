import { civilDateAt } from "#domain";
import { readPack, type DeviceIdentifier, type PackLevel, type PackReading } from "#labels";
import type { Receive, Reading } from "#contracts/stock";
import { findProductByIdentifier, type IdentifiedProduct } from "../catalogue/catalogue.store.ts";
import type { Tx } from "../db/transaction.ts";
import { Problem } from "../http/problem.ts";
import { readScan, useByOfLabel } from "../stock/reading.ts";

type Labels = Pick<Receive, "barcodes" | "gsTokens" | "packLabels">;
type Known = ReadonlyMap<string, IdentifiedProduct>;

/**
 * What the label of a pack says, or several of its labels together: of its levels of packing the
 * outermost that the catalogue knows is what comes in, and the serial is the innermost one's.
 */
export async function readLabels(
  tx: Tx,
  { barcodes, packLabels = [], gsTokens = [] }: Labels,
): Promise<Reading> {
  const inputs = [barcodes, ...packLabels];
  const readings = inputs.map((label) => readOne(tx, { barcodes: label, gsTokens }));
  const [first] = readings;
  if (packLabels.length === 0) return first!;
  const products = await findProducts(tx, readings);
  const today = civilDateAt(tx.at.toISOString(), tx.actor.timeZone);
  const itemOf = (identifier: DeviceIdentifier) => products.get(textOf(identifier))?.product_id;
  const pack = readPack(inputs, { today, itemOf, gsTokens });
  refuseConflicts(pack, products);
  const [item] = pack.items;
  const levels = bySize(item!.levels, products);
  const outermost = levels.findLast((level) => sizeOf(level, products) > 0) ?? levels.at(-1);
  return {
    ok: true,
    scheme: first!.scheme,
    identifier: outermost?.identifier ?? null,
    lot: item!.fields.lot ?? null,
    serial: item!.fields.serial ?? levels.find(({ serial }) => serial)?.serial ?? null,
    useBy: useByOfLabel(item!.fields.expiry),
    warnings: [...new Set(readings.flatMap(({ warnings }) => warnings))],
    error: null,
  };
}

function readOne(tx: Tx, label: Pick<Labels, "barcodes" | "gsTokens">): Reading {
  const { type, reading } = readScan(tx, label);
  if (reading.ok && type === "label") return reading;
  throw new Problem(
    "label-unreadable",
    "That is no label of a product. Scan the code on the box that carries lot and use-by date.",
    { reading },
  );
}

const textOf = ({ scheme, value }: DeviceIdentifier): string => `${scheme} ${value}`;

const packLevels = ["unit", "box", "case"];

/** More for an outer level than for one within it; nothing for what the catalogue does not know. */
function sizeOf({ identifier }: PackLevel, products: Known): number {
  const product = products.get(textOf(identifier));
  return product ? product.containers * 10 + packLevels.indexOf(product.pack_level) : 0;
}

/** From the innermost outwards: as the catalogue says, or as the identifiers themselves say. */
function bySize(levels: readonly PackLevel[], products: Known): readonly PackLevel[] {
  if (levels.some((level) => sizeOf(level, products) === 0)) return levels;
  return [...levels].sort((a, b) => sizeOf(a, products) - sizeOf(b, products));
}

async function findProducts(tx: Tx, readings: readonly Reading[]): Promise<Known> {
  const products = new Map<string, IdentifiedProduct>();
  for (const { identifier } of readings) {
    const product = identifier && (await findProductByIdentifier(tx, identifier));
    if (product) products.set(textOf(identifier), product);
  }
  return products;
}

const contractNames: Readonly<Record<string, string>> = { expiry: "useBy" };

function refuseConflicts({ lines, conflicts }: PackReading, products: Known): void {
  const found = new Set([...products.values()].map(({ product_id }) => product_id));
  // Two entries of the catalogue may differ in their level alone, and be two products all the same.
  const other = found.size > 1 ? lines.filter(({ field }) => field === "identifier") : [];
  const told = [...new Set([...other, ...conflicts])].map(({ field, values }) => ({
    field: contractNames[field] ?? field,
    values,
  }));
  if (told.length === 0) return;
  const said = told.map(
    ({ field, values }) => `${field} (${values.map((value) => value ?? "none").join(", ")})`,
  );
  throw new Problem(
    "pack-conflict",
    `The labels of the pack contradict each other in ${said.join(", ")}. Do not put it away: ` +
      "compare what is printed and ask the supplier, or receive the bottles separately.",
    { conflicts: told },
  );
}
