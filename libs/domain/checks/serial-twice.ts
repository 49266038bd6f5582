import { showContainerCode } from "../container-code.ts";
import { aboutItem, checkItems, type Check } from "./check.ts";

/**
 * The serial that was scanned is registered on another container of the same device identifier: one
 * of the two is not what its label says. Source: a serial number belongs to one unit, GS1 General
 * Specifications, AI 21 (from memory); ISO 15223-1 5.1.7.
 */
export const serialTwice: Check = {
  code: "serial-twice",
  level: "stop",
  fixed: false,
  run: (context) =>
    checkItems(context, (item) => {
      const { serialTakenBy, scanned } = item.facts;
      if (serialTakenBy === null) return null;
      const serial = scanned.serial ?? item.container?.serial ?? "";
      const other = showContainerCode(serialTakenBy);
      return {
        subject: aboutItem(item),
        numbers: { serial, other },
        remedy: { code: "check-label", numbers: {} },
        because: [
          { what: "serial", value: serial, from: "label" },
          { what: "other-container", value: other, from: "stock" },
        ],
        until: null,
      };
    }),
};
