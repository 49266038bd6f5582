import type { ReactNode } from "react";
import type { TraySeals } from "#contracts/waiting";
import { useRead } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import type { Tray } from "../tray/columns.ts";
import { NeedsList } from "./NeedsList.tsx";
import { showTooth } from "../texts/tooth-notation.ts";

type Tooth = TraySeals["teeth"][number];

/** At a bonding visit, tooth by tooth what the sealed surface needs first. Nothing at a sealing. */
export function SurfaceNeeds({ tray }: { tray: Pick<Tray, "id" | "technique"> }): ReactNode {
  const { needs: t } = useTexts().waiting;
  const isBonding = tray.technique.visit === "bonding";
  const params = { trayId: tray.id };
  const { data } = useRead("getTraySeals", { params }, { enabled: isBonding });
  if (!isBonding || data === undefined) return null;
  return (
    <section className="panel surface">
      <h2>{t.title}</h2>
      <p className="hint">{t.ifuFirst}</p>
      <div className="surface-teeth">
        {data.teeth.map((tooth) => (
          <ToothNeeds key={tooth.tooth} tooth={tooth} />
        ))}
      </div>
    </section>
  );
}

function ToothNeeds({ tooth: { tooth, linked, seals } }: { tooth: Tooth }): ReactNode {
  const { common, waiting: t } = useTexts();
  const { date } = useFormats();
  const shown = seals.filter(({ sealId, waits }) => (linked === null ? waits : sealId === linked));
  return (
    <div className="surface-tooth">
      <h3>{common.tooth(showTooth(tooth))}</h3>
      {shown.length === 0 ? <p>{t.needs.none}</p> : null}
      {shown.map(({ sealId, sealedOn, days, cement, needs }) => (
        <div key={sealId}>
          <p>
            {t.needs.seal(date(sealedOn), days)} ·{" "}
            {cement === null ? t.noCement : t.cement(cement.productName, cement.lot)}
          </p>
          <NeedsList needs={needs} />
        </div>
      ))}
    </div>
  );
}
