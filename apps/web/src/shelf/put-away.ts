/** Containers collected by scanning, to be moved together once their place is known. */
import type { LocationKind } from "#domain";
import type { Container } from "../ui/ContainerWords.tsx";

type Collectable = Pick<Container, "id" | "state" | "location">;

/** What became of a scan: only a container told for certain, and free to be moved, is added. */
export type Collected<C extends Collectable> =
  | { outcome: "added" | "again" | "quarantined" | "gone"; container: C; list: readonly C[] }
  | { outcome: "none" | "several"; list: readonly C[] };

/** Adds what a scan means to the list: the one container of all that its label fits. */
export function collect<C extends Collectable>(
  list: readonly C[],
  found: readonly C[],
): Collected<C> {
  const movable = found.filter(({ state }) => state === "sealed" || state === "open");
  const here = movable.length > 0 ? movable : found;
  const [container, ...others] = here;
  if (container === undefined) return { outcome: "none", list };
  if (others.length > 0) return { outcome: "several", list };
  if (container.state === "quarantined") return { outcome: "quarantined", container, list };
  if (movable.length === 0) return { outcome: "gone", container, list };
  if (list.some(({ id }) => id === container.id)) return { outcome: "again", container, list };
  return { outcome: "added", container, list: [...list, container] };
}

const shelves: readonly LocationKind[] = ["operatory", "refrigerator", "store"];

/** Whether things are simply put there; quarantine and what is outside ask for more. */
export const isShelf = ({ kind }: { kind: LocationKind }): boolean => shelves.includes(kind);

/** Those that are to be moved to a place: what stands there already is not. */
export const listDue = <C extends Collectable>(list: readonly C[], placeId: string): readonly C[] =>
  list.filter(({ location }) => location.id !== placeId);
