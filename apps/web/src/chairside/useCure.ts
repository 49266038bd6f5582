import { useState } from "react";
import { useRead } from "../api/queries.ts";
import { readRemembered, remember } from "../ui/remembered.ts";
import { reckonCure, type CureChoice, type Exposure, type Light } from "./cure.ts";
import type { RecordView } from "./steps.ts";
import type { Part, RecordStep } from "./timer.ts";

export interface Cure {
  lights: readonly Light[];
  light: Light | undefined;
  choice: CureChoice;
  choose: (choice: CureChoice) => void;
  neededJCm2: number | null;
  /** What so many seconds give; `null` where the light was not measured. */
  reckon: (seconds: number) => Exposure | null;
  /** Cures for so long as the light needs, in place of what is planned. */
  setSeconds: (seconds: number) => void;
  plan: (part: Part) => Part;
  /** What the record is told of it. */
  told: { lightId: string | null; mode?: string; distanceTenthMm: number };
}

interface CureOfStep {
  record: RecordView;
  step: RecordStep;
  locationId: string;
}

/** The light at hand: the one last used in this room on this device, else the room's own. */
export function useCure({ record, step, locationId }: CureOfStep): Cure {
  const known = useRead("listLights", {}, { staleMs: 60_000 }).data?.lights ?? [];
  const lights = known.filter(({ retired }) => !retired);
  const rememberedAs = `light.${locationId}`;
  const [chosen, setChosen] = useState<CureChoice | null>(null);
  const [seconds, setSeconds] = useState<number | null>(null);
  const last = readRemembered(rememberedAs);
  const usual =
    lights.find(({ id }) => id === last) ??
    lights.find(({ location }) => location?.id === locationId);
  const planned = record.technique.steps.find(({ key }) => key === step.key);
  const choice = chosen ?? {
    lightId: usual?.id ?? null,
    mode: null,
    distanceTenthMm: planned?.lightDistanceTenthMm ?? 0,
  };
  const light = lights.find(({ id }) => id === choice.lightId);
  const mode = light?.modes.find(({ name }) => name === choice.mode) ?? light?.modes[0];
  const { neededJCm2 } = step;
  return {
    lights,
    light,
    choice,
    choose: (next) => {
      setChosen(next);
      // Another light or distance asks for a time of its own.
      setSeconds(null);
      if (next.lightId !== null) remember(rememberedAs, next.lightId);
    },
    neededJCm2,
    reckon: (over) => reckonCure(light, choice, { seconds: over, neededJCm2 }),
    setSeconds,
    plan: (part) => (seconds === null ? part : { ...part, seconds, from: "exposure" }),
    told: {
      lightId: light?.id ?? null,
      ...(mode === undefined ? {} : { mode: mode.name }),
      distanceTenthMm: choice.distanceTenthMm,
    },
  };
}
