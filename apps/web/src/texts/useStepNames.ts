import { useMemo } from "react";
import { useRead } from "../api/queries.ts";

/** Names a step by its key, as the practice's techniques do; a key they do not know stays bare. */
export function useStepNames(): (key: string) => string {
  const { data } = useRead("listTechniques", {}, { staleMs: 300_000 });
  return useMemo(() => {
    const steps = data?.techniques.flatMap((technique) => technique.steps) ?? [];
    const names = new Map(steps.map((step) => [step.key, step.name]));
    return (key) => names.get(key) ?? key;
  }, [data]);
}
