import { useSearchParams } from "wouter";

/** What a link to the planning page already knows; empty where it says nothing. */
export function usePlanQuery() {
  const [search] = useSearchParams();
  const get = (name: string): string => search.get(name) ?? "";
  return {
    chart: get("chart"),
    tooth: get("tooth"),
    technique: get("technique"),
    /** The sealing record whose restoration is to be bonded. */
    seal: get("seal"),
    template: get("template"),
    on: get("on"),
  };
}
