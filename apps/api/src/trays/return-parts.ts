import type { ClearTray, TrayReturns } from "#contracts/trays";
import type { Tx } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import { notFound, Problem } from "../http/problem.ts";
import { insertMovement } from "../stock/movements.store.ts";
import { findLocation, getPlaceOfKind } from "../stock/stock.store.ts";
import type { ItemRow } from "./tray-item.ts";
import type { ReturnRow } from "./trays.store.ts";

interface Part {
  containerId: string;
  toLocationId: string;
  reason: "used-up" | "moved" | "discarded";
  note?: string;
}

/** After the visit: what is empty is booked, the rest goes back, what is spoilt is thrown away. */
export async function returnParts(
  tx: Tx,
  rows: readonly ItemRow[],
  told: ClearTray,
): Promise<void> {
  const parts = await listParts(tx, told);
  const ids = parts.map(({ containerId }) => containerId);
  if (new Set(ids).size < ids.length) {
    throw new Problem("invalid-request", "Say of each container one thing only.", {
      errors: [{ path: "/body", message: "a container is named twice" }],
    });
  }
  for (const { containerId, toLocationId, reason, note = "" } of parts) {
    const row = rows.find((each) => each.id === containerId);
    if (!row) throw new Problem("not-on-tray", "One of the containers is not on this tray.");
    if (row.location_id === toLocationId) continue;
    if (reason === "moved" && !shelves.includes(row.location_kind)) throw notOnShelf(row);
    await insertMovement(tx, {
      id: newId(),
      lotId: row.lot_id,
      containerId,
      fromLocationId: row.location_id,
      toLocationId,
      quantity: 1,
      reason,
      note,
    });
  }
}

async function listParts(tx: Tx, { usedUp, returned, discarded }: ClearTray): Promise<Part[]> {
  const parts: Part[] = [];
  if (usedUp.length > 0) {
    const { id: toLocationId } = await getPlaceOfKind(tx, "used");
    for (const containerId of new Set(usedUp)) {
      parts.push({ containerId, toLocationId, reason: "used-up" });
    }
  }
  if (discarded.length > 0) {
    const { id: toLocationId } = await getPlaceOfKind(tx, "discarded");
    parts.push(...discarded.map((one) => ({ ...one, toLocationId, reason: "discarded" as const })));
  }
  for (const { containerId, locationId } of returned) {
    const place = await findLocation(tx, locationId);
    if (!place || !shelves.includes(place.kind)) throw notFound("place to put it away");
    parts.push({ containerId, toLocationId: place.id, reason: "moved" });
  }
  return parts;
}

const notOnShelf = ({ code, location_name: place }: ItemRow) =>
  new Problem(
    "container-not-there",
    `${code} is in ${place} and does not go back to a shelf with this tray. Leave it there.`,
  );

/** What is known of where a container belongs after the visit. */
export function returnView(row: ReturnRow): TrayReturns["containers"][number] {
  const named = (id: string | null, name: string | null) =>
    id === null || name === null ? null : { id, name };
  const room = named(row.other_room_id, row.other_room_name);
  const other = named(row.other_id, row.other_name);
  return {
    containerId: row.container_id,
    cameFrom: named(row.from_id, row.from_name),
    place: { id: row.now_id, name: row.now_name },
    onShelf: shelves.includes(row.now_kind),
    otherTray: other === null || room === null ? null : { ...other, room },
  };
}

const shelves: readonly string[] = ["store", "refrigerator", "operatory"];
