import { addDays, addMonths, lastDayOfMonth } from "./civil-date.ts";
import type { ContainerFacts, InUseLife } from "./facts.ts";

/** The last day on which a container may be used, and which of its limits decided. */
export interface EffectiveEnd {
  date: string;
  decidedBy: "use-by" | "in-use-life";
}

/**
 * The last day of use that the label gives; a date of month precision ends with its month.
 * Source: ISO 15223-1 5.1.4, "not to be used after the date"; GS1 General Specifications, AI 17
 * with day 00 (both from memory).
 */
export function computeUseByEnd(useBy: NonNullable<ContainerFacts["useBy"]>): string {
  return useBy.precision === "month" ? lastDayOfMonth(useBy.date) : useBy.date;
}

/**
 * The last day of use that opening leaves: opened on day D with 30 days is usable through D + 30;
 * months are added with the day clamped. `null` where it is not open or the IFU gives no in-use
 * life, since no default is ever assumed. Source: the product's IFU; the counting is common
 * practice, no source.
 */
export function computeInUseEnd(
  openedOn: string | null,
  inUseLife: InUseLife | null,
): string | null {
  if (openedOn === null || inUseLife === null) return null;
  return inUseLife.unit === "day"
    ? addDays(openedOn, inUseLife.count)
    : addMonths(openedOn, inUseLife.count);
}

/**
 * The last day on which a container may be used: the earlier of its use-by date and the end of its
 * in-use life, as a civil date of the practice, with the limit that decided (the label, where both
 * fall on one day). `null` where neither gives an end. Source: common practice, no source; a
 * period after opening comes from the IFU alone.
 */
export function computeEffectiveEnd(limits: {
  useBy: ContainerFacts["useBy"];
  openedOn: string | null;
  inUseLife: InUseLife | null;
}): EffectiveEnd | null {
  const useByEnd = limits.useBy === null ? null : computeUseByEnd(limits.useBy);
  const inUseEnd = computeInUseEnd(limits.openedOn, limits.inUseLife);
  if (inUseEnd !== null && (useByEnd === null || inUseEnd < useByEnd)) {
    return { date: inUseEnd, decidedBy: "in-use-life" };
  }
  return useByEnd === null ? null : { date: useByEnd, decidedBy: "use-by" };
}
