import type { AnswerOf, BodyOf } from "#contracts/operations";
import type { Scan } from "../scanner/scan.ts";
import type { Tray } from "./columns.ts";

export type Container = NonNullable<Tray["items"][number]["container"]>;
export type Return = AnswerOf<"getTrayReturns">["containers"][number];

/** What becomes of a container: a place's id, or one of these. */
export const usedUp = "used-up";
export const thrownAway = "discarded";
export type Fates = Readonly<Record<string, string>>;
export type Notes = Readonly<Record<string, string>>;

export const containersOf = ({ items }: Pick<Tray, "items">): readonly Container[] =>
  items.flatMap(({ container }) => container ?? []);

/**
 * Where a container goes that nobody says anything of: to the other tray that it stands on as well,
 * else to where it stood before. What is in quarantine, or gone, stays as it is booked.
 */
export function usualFate({ onShelf, place, otherTray, cameFrom }: Return): string {
  if (!onShelf) return place.id;
  return otherTray?.room.id ?? cameFrom?.id ?? place.id;
}

type ClearBody = { [Part in keyof BodyOf<"clearTray">]-?: NonNullable<BodyOf<"clearTray">[Part]> };

/** What is sent: what stays where it is by the books is not named. */
export function readFates(containers: readonly Container[], fates: Fates, notes: Notes): ClearBody {
  const told = containers.map(({ id, location }) => ({
    id,
    here: location.id,
    fate: fates[id] ?? location.id,
  }));
  const moved = told.filter(({ fate }) => fate !== usedUp && fate !== thrownAway);
  return {
    usedUp: told.filter(({ fate }) => fate === usedUp).map(({ id }) => id),
    discarded: told
      .filter(({ fate }) => fate === thrownAway)
      .map(({ id }) => ({ containerId: id, note: notes[id]?.trim() ?? "" })),
    returned: moved
      .filter(({ fate, here }) => fate !== here)
      .map(({ id, fate }) => ({ containerId: id, locationId: fate })),
  };
}

/** The container of a tray that was scanned: by its own code, or by its label where one fits. */
export function findScanned({ items }: Pick<Tray, "items">, scan: Scan): Container | undefined {
  const { reading } = scan;
  if (reading.kind === "container") {
    return containersOf({ items }).find(({ code }) => code === reading.code);
  }
  if (reading.kind !== "label") return undefined;
  const text = scan.barcodes.join("\n");
  const same = items.filter(({ barcode, container }) => container !== null && barcode === text);
  const { lot } = reading.label.fields;
  const alike = items.filter(({ container }) => lot !== undefined && container?.lot === lot);
  const [only, ...more] = same.length > 0 ? same : alike;
  return more.length === 0 ? (only?.container ?? undefined) : undefined;
}
