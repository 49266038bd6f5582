import { useInfiniteQuery } from "@tanstack/react-query";
import { useEffect } from "react";
import { containerStates } from "#domain";
import type { QueryOf } from "#contracts/operations";
import { call } from "../api/client.ts";
import type { Container } from "../ui/ContainerWords.tsx";
import type { Filter } from "../ui/useFilter.ts";

type Asked = NonNullable<QueryOf<"listContainers">>;

/** What the filter in the address asks of the server; words are searched for on this device. */
export function askedOf(filter: Filter): Asked {
  const state = containerStates.find((one) => one === filter.get("state"));
  const isHere = state === undefined || ["sealed", "open", "quarantined"].includes(state);
  const part = (name: "location" | "product" | "lot") => {
    const value = filter.get(name);
    return value === "" ? {} : { [name]: value };
  };
  return {
    ...part("location"),
    ...part("product"),
    ...part("lot"),
    ...(state === undefined ? {} : { state }),
    ...(isHere && filter.get("state") !== "all" ? { here: "true" as const } : {}),
    limit: 500,
  };
}

/** Whether a container is what the words mean: each must be in its name, lot, code or serial. */
export function matchesWords(container: Container, words: string): boolean {
  const { product, lot, code, serial } = container;
  const text = `${product.name} ${lot} ${code} ${serial ?? ""}`.toLowerCase();
  const bare = text.replaceAll("-", "");
  return words
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word) || bare.includes(word.replaceAll("-", "")));
}

/** The containers of a filter, page by page; a search by words goes through all of them. */
export function useContainers(filter: Filter) {
  const asked = askedOf(filter);
  const words = filter.get("q").trim();
  const query = useInfiniteQuery({
    queryKey: ["listContainers", { query: asked }, "pages"],
    queryFn: ({ pageParam }) =>
      call("listContainers", {
        query: pageParam === null ? asked : { ...asked, after: pageParam },
      }),
    initialPageParam: null as string | null,
    getNextPageParam: (page) => page.next,
  });
  const { hasNextPage, isFetching, fetchNextPage } = query;
  useEffect(() => {
    if (words !== "" && hasNextPage && !isFetching) void fetchNextPage();
  }, [words, hasNextPage, isFetching, fetchNextPage]);
  const containers = query.data?.pages
    .flatMap((page) => page.containers)
    .filter((container) => matchesWords(container, words));
  return { query, containers };
}
