import { showContainerCode } from "#domain";
import { identifierOf } from "#labels";
import type { AnswerOf, BodyOf } from "#contracts/operations";
import type { OutboxEntry } from "../outbox/entry.ts";
import { readScanned, type ScanTexts } from "../scanner/scan.ts";
import type { PendingScan } from "./columns.ts";

/** What this device has last heard of the practice's stock and catalogue. */
export interface KnownStock {
  containers: AnswerOf<"listContainers">["containers"];
  products: AnswerOf<"listProducts">["products"];
}

export interface PendingWords {
  today: string;
  nowMs: number;
  /** Lot and end, as people read them. */
  describe: (lot: string | null, end: string | null) => string;
}

// Shorter than a person notices; longer, the server is likely not answering.
const lateAfterMs = 1500;

/** What waiting scans are, by what this device knows: shown before the server answers. */
export function readPending(
  entries: readonly OutboxEntry[],
  stock: KnownStock,
  words: PendingWords,
): readonly PendingScan[] {
  return entries
    .filter((entry) => entry.route === "scanIntoTray")
    .map((entry) => {
      const texts = entry.body as BodyOf<"scanIntoTray">;
      const late = words.nowMs - Date.parse(entry.at) > lateAfterMs;
      return { key: entry.key, late, ...nameScan(texts, stock, words) };
    });
}

/** The name of what was scanned and, where known, its product's kind. */
export function nameScan(
  texts: ScanTexts,
  { containers, products }: KnownStock,
  { today, describe }: Pick<PendingWords, "today" | "describe">,
): Pick<PendingScan, "name" | "detail" | "kind"> {
  const { barcodes } = texts;
  const reading = readScanned(texts, today);
  if (reading.kind === "container") {
    const container = containers.find(({ code }) => code === reading.code);
    const shown = showContainerCode(reading.code);
    if (container === undefined) return { name: shown, detail: "", kind: null };
    const { product, lot, endsOn } = container;
    return {
      name: `${product.name} ${shown}`,
      detail: describe(lot, endsOn?.date ?? null),
      kind: product.kind,
    };
  }
  if (reading.kind !== "label") return { name: barcodes.join(" "), detail: "", kind: null };
  const { fields } = reading.label;
  const identifier = identifierOf(fields);
  const product = products.find(({ identifiers }) =>
    identifiers.some((one) => one.scheme === identifier?.scheme && one.value === identifier.value),
  );
  return {
    name: product?.name ?? identifier?.value ?? fields.lot ?? barcodes.join(" "),
    detail: describe(fields.lot ?? null, fields.expiry?.date ?? null),
    kind: product?.kind ?? null,
  };
}

/** The items of a tray whose removal waits to be sent. */
export function listRemoved(entries: readonly OutboxEntry[]): ReadonlySet<string> {
  return new Set(
    entries
      .filter((entry) => entry.route === "removeFromTray")
      .map((entry) => entry.params["itemId"] ?? ""),
  );
}
