import { patterns } from "../paths.ts";

/** The pages of the line across the top, in the order of a bottle's life. */
export const navStations = [
  { key: "today", path: patterns.today },
  { key: "receive", path: patterns.receive },
  { key: "shelf", path: patterns.shelf },
  { key: "trays", path: patterns.trays },
  { key: "records", path: patterns.records },
  { key: "withdrawals", path: patterns.withdrawals },
  { key: "catalogue", path: patterns.catalogue },
  { key: "practice", path: patterns.practice },
] as const;

/** Which station a path belongs to, or `null` where it belongs to none. */
export function stationOf(path: string): (typeof navStations)[number]["key"] | null {
  const first = `/${path.split("/")[1] ?? ""}`;
  return navStations.find((station) => station.path === first)?.key ?? null;
}
