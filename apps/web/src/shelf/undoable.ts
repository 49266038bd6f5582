interface MovementLike {
  id: string;
  reverses: string | null;
}

/**
 * The one movement of a container that can be undone now: the newest that was not undone. An older
 * one cannot, since the container is no longer where it led. The movements come oldest first.
 */
export function findUndoable(movements: readonly MovementLike[]): string | null {
  const undone = new Set(movements.map(({ reverses }) => reverses));
  const standing = movements.findLast(({ id, reverses }) => reverses === null && !undone.has(id));
  return standing?.id ?? null;
}
