import type { CheckedItem } from "../check-context.ts";
import { findInstead, nameInstead } from "../suggest.ts";
import { aboutItem, checkItems, takeInstead, type Check } from "./check.ts";

type Absence = "not-received" | "empty" | "discarded" | "returned" | "lost" | "other-tray";

function findAbsence({ product, container, facts }: CheckedItem): Absence | null {
  if (container === null) return product === null ? null : "not-received";
  const { state } = container;
  if (state === "empty" || state === "discarded" || state === "returned" || state === "lost") {
    return state;
  }
  if (container.place.kind === "supplier") return "not-received";
  return facts.onOtherTray === null ? null : "other-tray";
}

/**
 * By the books the container cannot be here: it was never received, is empty, discarded, returned
 * or lost, or stands on another tray that is not cleared. Source: common practice, no source.
 */
export const notAvailable: Check = {
  code: "not-available",
  level: "stop",
  fixed: false,
  run: (context) =>
    checkItems(context, (item) => {
      const reason = findAbsence(item);
      if (reason === null) return null;
      const tray = reason === "other-tray" ? (item.facts.onOtherTray?.name ?? "?") : null;
      return {
        subject: aboutItem(item),
        numbers: tray === null ? { reason } : { reason, tray },
        remedy:
          reason === "not-received"
            ? { code: "receive-first", numbers: nameInstead(findInstead(context, item)) }
            : takeInstead(context, item),
        because: [
          tray === null
            ? { what: "state", value: reason, from: "stock" }
            : { what: "other-tray", value: tray, from: "stock" },
        ],
        until: null,
      };
    }),
};
