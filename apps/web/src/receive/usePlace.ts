import { useEffect, useRef, useState } from "react";
import type { AnswerOf } from "#contracts/operations";
import { useRead } from "../api/queries.ts";
import { readRemembered, remember } from "../ui/remembered.ts";

export type Place = AnswerOf<"listLocations">["locations"][number];

const rememberedAs = "receive-place";

/** Where packs are put away: as last chosen on this device, else in a store. */
export function usePlace() {
  const { data, error } = useRead("listLocations", {}, { staleMs: 300_000 });
  const [chosen, setChosen] = useState(() => readRemembered(rememberedAs));
  const places = data?.locations.filter(({ outside }) => !outside) ?? [];
  const place =
    places.find(({ id }) => id === chosen) ??
    places.find(({ kind }) => kind === "store") ??
    places[0] ??
    null;
  const choose = (id: string) => {
    remember(rememberedAs, id);
    setChosen(id);
  };
  // A scan may come before the places are known: it waits for them, so that none is lost.
  const waiting = useRef<((known: Place) => void)[]>([]);
  useEffect(() => {
    if (place === null) return;
    for (const act of waiting.current.splice(0)) act(place);
  });
  const withPlace = (act: (known: Place) => void): void => {
    if (place === null) waiting.current.push(act);
    else act(place);
  };
  return { places, place, withPlace, choose, error };
}
