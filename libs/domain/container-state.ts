import type { EffectiveEnd } from "./effective-end.ts";
import type { ContainerFacts } from "./facts.ts";
import type { ContainerState, LocationKind } from "./vocabulary.ts";

const statesByPlace: Partial<Record<LocationKind, ContainerState>> = {
  quarantine: "quarantined",
  used: "empty",
  discarded: "discarded",
  returned: "returned",
  lost: "lost",
  // A count that did not find a container books it here, and nobody knows where it is.
  "count-difference": "lost",
};

/**
 * The state of a container, which follows from the kind of place it is at and from the civil date
 * on which it was opened, if it was: nothing else sets it. Source: common practice, no source.
 */
export function computeContainerState(
  placeKind: LocationKind,
  openedOn: string | null,
): ContainerState {
  return statesByPlace[placeKind] ?? (openedOn === null ? "sealed" : "open");
}

/**
 * Answers whether a container can be taken from its shelf and used on a day: sealed or open, in a
 * place of the practice that is not quarantine, and not past its effective end on that day.
 */
export function isUsableOn(
  container: Pick<ContainerFacts, "state" | "place">,
  end: EffectiveEnd | null,
  day: string,
): boolean {
  const { kind } = container.place;
  return (
    (container.state === "sealed" || container.state === "open") &&
    (kind === "store" || kind === "refrigerator" || kind === "operatory") &&
    (end === null || end.date >= day)
  );
}
