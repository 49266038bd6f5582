import type { CheckedItem } from "../check-context.ts";
import { computeUseByEnd } from "../effective-end.ts";
import { aboutItem, type Check } from "./check.ts";

interface Conflict {
  reason: "use-by" | "use-by-not-stored" | "lot" | "serial";
  what: "use-by" | "lot" | "serial";
  scanned: string;
  stored: string | null;
}

function listConflicts({ container, facts }: CheckedItem): readonly Conflict[] {
  if (container === null) return [];
  const { useBy, lot, serial } = facts.scanned;
  const conflicts: Conflict[] = [];
  const storedEnd = container.useBy === null ? null : computeUseByEnd(container.useBy);
  if (useBy !== null && useBy !== storedEnd) {
    const reason = storedEnd === null ? "use-by-not-stored" : "use-by";
    conflicts.push({ reason, what: "use-by", scanned: useBy, stored: storedEnd });
  }
  if (lot !== null && lot !== container.lot) {
    conflicts.push({ reason: "lot", what: "lot", scanned: lot, stored: container.lot });
  }
  if (serial !== null && container.serial !== null && serial !== container.serial) {
    conflicts.push({ reason: "serial", what: "serial", scanned: serial, stored: container.serial });
  }
  return conflicts;
}

/**
 * The scanned use-by date, lot or serial disagrees with what is stored for the container, or the
 * label gives a use-by date where none is stored. Lots are compared character by character, since a
 * look-alike is for a person to judge; what the label does not say cannot disagree, nor can a
 * serial where none was stored. Own rule, no source.
 */
export const labelConflict: Check = {
  code: "label-conflict",
  level: "stop",
  fixed: false,
  run: (context) =>
    context.items.flatMap((item) =>
      listConflicts(item).map(({ reason, what, scanned, stored }) => ({
        subject: aboutItem(item),
        numbers: stored === null ? { reason, scanned } : { reason, scanned, stored },
        remedy: { code: "check-label" as const, numbers: {} },
        because: [
          { what, value: scanned, from: "label" as const },
          ...(stored === null ? [] : [{ what, value: stored, from: "stock" as const }]),
        ],
        until: null,
      })),
    ),
};
