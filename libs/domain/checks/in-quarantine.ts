import { aboutItem, checkItems, takeInstead, type Check } from "./check.ts";

/**
 * The container, or the place it is booked at, is quarantined. Source: common practice, no source.
 */
export const inQuarantine: Check = {
  code: "in-quarantine",
  level: "stop",
  fixed: true,
  run: (context) =>
    checkItems(context, (item) => {
      const { container } = item;
      if (container === null) return null;
      if (container.state !== "quarantined" && container.place.kind !== "quarantine") return null;
      return {
        subject: aboutItem(item),
        numbers: { place: container.place.name },
        remedy: takeInstead(context, item),
        because: [{ what: "place", value: container.place.name, from: "stock" }],
        until: null,
      };
    }),
};
