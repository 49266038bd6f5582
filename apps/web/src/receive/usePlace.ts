import { useEffect, useRef, useState } from "react";
import type { AnswerOf } from "#contracts/operations";
import { useRead } from "../api/queries.ts";
import { usePlaceTarget } from "../scanner/OwnCodes.tsx";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
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
  useScannedPlace(places, choose);
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

/** The code on a shelf says where the packs go from now on. */
function useScannedPlace(places: readonly Place[], choose: (id: string) => void): void {
  const { own: t } = useTexts().labels;
  const announce = useAnnounce();
  usePlaceTarget(({ id, name, outside }) => {
    if (outside || !places.some((one) => one.id === id)) {
      playSound("look");
      return announce({ text: t.receiveOutside(name), tone: "look" });
    }
    playSound("taken");
    choose(id);
    announce({ text: t.receiveInto(name) });
  });
}
