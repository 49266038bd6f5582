import { findProductByIdentifier } from "../catalogue/catalogue.store.ts";
import type { Tx } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import { Problem } from "../http/problem.ts";
import type { ContainerRow } from "../stock/container-row.ts";
import { insertMovement } from "../stock/movements.store.ts";
import { readScan, type ScanSent } from "../stock/reading.ts";
import { findContainerByCode, findContainersByLabel } from "../stock/stock.store.ts";
import { insertTrayItem } from "./trays.store.ts";

type Reading = ReturnType<typeof readScan>["reading"];

/** What a scan names: a container, a product of which none was received, or nothing known. */
export interface Named {
  reading: Reading;
  productId: string | null;
  container: ContainerRow | undefined;
}

/** Finds what was scanned; of several alike, one that stands in the tray's operatory. */
export async function nameScan(tx: Tx, sent: ScanSent, trayId: string): Promise<Named> {
  const scan = readScan(tx, sent);
  const { reading } = scan;
  if (scan.type === "code") {
    const container = await findContainerByCode(tx, scan.code);
    if (container) return { reading, productId: container.product_id, container };
    throw new Problem(
      "label-unreadable",
      `${scan.code} is the code of no container here. Scan it again, or scan the product's label.`,
      { reading },
    );
  }
  if (!reading.ok) {
    throw new Problem(
      "label-unreadable",
      "The code could not be read. Scan it again; if that fails, type the container's code.",
      { reading },
    );
  }
  const product = reading.identifier && (await findProductByIdentifier(tx, reading.identifier));
  if (!product) return { reading, productId: null, container: undefined };
  const { product_id: productId } = product;
  const { lot, serial } = reading;
  const found = await findContainersByLabel(tx, { productId, lot, serial, forTrayId: trayId });
  return { reading, productId, container: found[0] };
}

/**
 * Puts what was scanned on a tray and, where it stood on another shelf, moves it to the tray's
 * operatory: that is where it is now.
 */
export async function placeScan(
  tx: Tx,
  tray: { id: string; locationId: string },
  told: {
    itemId: string;
    named: Named;
    sent: ScanSent;
    stepKey: string | null;
    scannedAt?: string | undefined;
  },
): Promise<void> {
  const { itemId, named, sent, stepKey, scannedAt = null } = told;
  const { barcodes, gsTokens } = sent;
  const { container, productId, reading } = named;
  const containerId = container?.id ?? null;
  const how = gsTokens === undefined ? { barcodes } : { barcodes, gsTokens };
  tx.audit("placed-on-tray", `tray:${tray.id}`, { item: itemId, ...how, stepKey, containerId });
  await Promise.all([
    insertTrayItem(tx, {
      id: itemId,
      trayId: tray.id,
      containerId,
      productId,
      stepKey,
      barcode: barcodes.join("\n"),
      scanned: reading,
      scannedAt,
    }),
    container && standsOnAnotherShelf(container, tray.locationId)
      ? insertMovement(tx, {
          id: newId(),
          lotId: container.lot_id,
          containerId: container.id,
          fromLocationId: container.location_id,
          toLocationId: tray.locationId,
          quantity: 1,
          reason: "tray",
        })
      : undefined,
  ]);
}

const standsOnAnotherShelf = (container: ContainerRow, here: string): boolean =>
  container.location_id !== here &&
  ["store", "refrigerator", "operatory"].includes(container.location_kind);
