import { useCallback } from "react";
import { useSearchParams } from "wouter";

export interface Filter {
  /** What a part of the filter is set to; empty where it is not. */
  get: (name: string) => string;
  /** Sets parts of the filter; an empty text takes one away. */
  set: (parts: Readonly<Record<string, string>>) => void;
}

/** A filter kept in the address, so that it can be sent to somebody and survives reloading. */
export function useFilter(): Filter {
  const [search, setSearch] = useSearchParams();
  const set = useCallback(
    (parts: Readonly<Record<string, string>>) =>
      setSearch(
        (before) => {
          const next = new URLSearchParams(before);
          for (const [name, value] of Object.entries(parts)) {
            if (value === "") next.delete(name);
            else next.set(name, value);
          }
          return next;
        },
        { replace: true },
      ),
    [setSearch],
  );
  return { get: (name) => search.get(name) ?? "", set };
}
