import { useInfiniteQuery } from "@tanstack/react-query";
import { useEffect } from "react";
import { call } from "../api/client.ts";
import type { Filter } from "../ui/useFilter.ts";
import { askedOf, matchesWords } from "./asked.ts";

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
