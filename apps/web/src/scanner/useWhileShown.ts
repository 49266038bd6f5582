import { useEffect, useRef } from "react";

type Take<Told> = (told: Told) => void;

/**
 * Hands what comes to `take` as long as the component is shown; `null` takes none. `add` registers a
 * taker and gives what removes it; it must stay the same from one drawing to the next.
 */
export function useWhileShown<Told>(
  add: (take: Take<Told>) => () => void,
  take: Take<Told> | null,
): void {
  const latest = useRef(take);
  useEffect(() => {
    latest.current = take;
  });
  const wanted = take !== null;
  useEffect(() => {
    if (!wanted) return undefined;
    return add((told) => latest.current?.(told));
  }, [add, wanted]);
}
