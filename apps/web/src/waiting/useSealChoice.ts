import { useState } from "react";
import type { BodyOf } from "#contracts/operations";
import type { TraySeals } from "#contracts/waiting";
import { useRead } from "../api/queries.ts";
import type { Tray } from "../tray/columns.ts";

export interface SealChoice {
  /** Teeth of which it is for a person to say which seal is bonded to. */
  teeth: TraySeals["teeth"];
  /** A seal's id by tooth, or `none`. */
  chosen: Readonly<Record<string, string>>;
  choose: (tooth: string, seal: string) => void;
  /** Some tooth is without an answer. */
  isOpen: boolean;
  /** What starting the records is told. */
  seals: NonNullable<BodyOf<"startRecord">["seals"]>;
}

/** Which seal each tooth of a bonding visit builds on, where not exactly one waits. */
export function useSealChoice({ id, technique, records }: Tray): SealChoice {
  const [chosen, setChosen] = useState<Readonly<Record<string, string>>>({});
  const isAsked = technique.visit === "bonding" && records.length === 0;
  const { data } = useRead("getTraySeals", { params: { trayId: id } }, { enabled: isAsked });
  const teeth = (isAsked ? (data?.teeth ?? []) : []).filter(
    ({ seals }) => seals.filter(({ waits }) => waits).length !== 1,
  );
  const seals = teeth.flatMap(({ tooth }) => {
    const seal = chosen[tooth];
    return seal === undefined ? [] : [{ tooth, sealId: seal === "none" ? null : seal }];
  });
  return {
    teeth,
    chosen,
    choose: (tooth, seal) => setChosen((before) => ({ ...before, [tooth]: seal })),
    isOpen: seals.length < teeth.length || (isAsked && data === undefined),
    seals,
  };
}
