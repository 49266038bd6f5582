import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { sayFact, type FactKey, type Product } from "./facts.ts";

const steps = [
  { key: "keep", facts: ["storage", "warmUpMinutes", "excursionLevel"] },
  { key: "open", facts: ["inUseLife", "usesPerContainer", "singleUse"] },
  { key: "apply", facts: ["strategy", "systemId", "applicationSeconds", "dropLifeSeconds"] },
  { key: "dry", facts: ["solvents", "airDrySeconds"] },
  { key: "cure", facts: ["cureSeconds", "radiantExposureJCm2", "fillerPercent", "modulusGpa"] },
  { key: "patient", facts: ["contents"] },
] as const satisfies readonly { key: string; facts: readonly FactKey[] }[];

/** The facts in the order in which they matter, from the shelf to the patient. */
export function FactsByStep({ product }: { product: Product }): ReactNode {
  const { catalogue: t } = useTexts();
  const { language } = useFormats();
  return (
    <ol className="facts-line" aria-label={t.product.facts}>
      {steps.map(({ key, facts }) => (
        <li key={key}>
          <h2>{t.product.steps[key]}</h2>
          <dl>
            {facts.map((fact) => {
              const said = sayFact(fact, product, { t, language });
              return (
                <div key={fact}>
                  <dt>{t.facts[fact]}</dt>
                  <dd className={said === null ? "not-stated" : undefined}>
                    {said ?? t.values.notStated}
                  </dd>
                </div>
              );
            })}
          </dl>
        </li>
      ))}
    </ol>
  );
}
