/** What the filter of the shelf means: to the server, and to the words somebody looks for. */
import { containerStates } from "#domain";
import type { QueryOf } from "#contracts/operations";
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

type Named = Pick<Container, "lot" | "code" | "serial"> & { product: { name: string } };

/** Whether a container is what the words mean: each must be in its name, lot, code or serial. */
export function matchesWords({ product, lot, code, serial }: Named, words: string): boolean {
  const text = `${product.name} ${lot} ${code} ${serial ?? ""}`.toLowerCase();
  const bare = text.replaceAll("-", "");
  return words
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word) || bare.includes(word.replaceAll("-", "")));
}
