import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { VerdictShape } from "../ui/Verdict.tsx";
import { BalanceView } from "./BalanceView.tsx";
import { Flow } from "./Flow.tsx";
import type { TracedLot } from "./sums.ts";
import { TeethView } from "./TeethView.tsx";

/** One lot, followed from the delivery to the teeth, and whether its books balance. */
export function LotTrace({ lot }: { lot: TracedLot }): ReactNode {
  const { withdrawal: t } = useTexts();
  const { shortDate } = useFormats();
  const title = t.lotTitle(lot.product.name, lot.lot);
  const facts = [
    lot.useBy === null ? t.noUseBy : t.useBy(shortDate(lot.useBy.date)),
    lot.identifiers.join(", "),
  ];
  return (
    <section className="panel lot-trace" aria-label={title}>
      <div className="panel-head">
        <h2>{title}</h2>
        {lot.withdrawn ? (
          <p className="lot-withdrawn">
            <VerdictShape verdict="stop" />
            {t.answer.withdrawn}
          </p>
        ) : null}
        <p className="hint">{facts.filter((fact) => fact !== "").join(" · ")}</p>
      </div>
      <Flow lot={lot} />
      <div className="lot-sides">
        <TeethView lot={lot} />
        <BalanceView balance={lot.balance} />
      </div>
    </section>
  );
}
