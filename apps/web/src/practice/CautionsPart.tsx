import type { ReactNode } from "react";
import { Cautions } from "../shell/About.tsx";
import { useTexts } from "../texts/Texts.tsx";

/** What Tubule is and what it is not, in full. */
export function CautionsPart(): ReactNode {
  const { cautions: t } = useTexts().practice;
  return (
    <section className="panel">
      <h2>{t.lead}</h2>
      <Cautions />
    </section>
  );
}
