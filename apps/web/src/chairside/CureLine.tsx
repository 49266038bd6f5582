import { useState, type ReactNode } from "react";
import { formatNumber } from "#texts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import { CureDialog } from "./CureDialog.tsx";
import type { Cure } from "./useCure.ts";

interface CureLineProps {
  cure: Cure;
  /** As the ring runs. */
  seconds: number;
  isRunning: boolean;
}

/** What the light gives in the time of the ring, and how long would do. */
export function CureLine({ cure, seconds, isRunning }: CureLineProps): ReactNode {
  const { chairside: t } = useTexts();
  const { language } = useFormats();
  const [asks, ask] = useState(false);
  const { light, choice, neededJCm2 } = cure;
  const number = (value: number): string => formatNumber(language, value);
  const exposure = cure.reckon(seconds);
  const isLow = exposure !== null && neededJCm2 !== null && exposure.givenJCm2 < neededJCm2;
  const enough = isLow ? exposure.enoughSeconds : null;
  return (
    <div className="cure-line">
      <p className={isLow ? "cure-gives low" : "cure-gives"} role="status">
        {isLow ? <VerdictShape verdict="caution" /> : null}
        <strong>
          {exposure === null
            ? t.notMeasured
            : t.gives(number(exposure.givenJCm2), neededJCm2 === null ? null : number(neededJCm2))}
        </strong>
        <span>
          {light?.name ?? t.otherLight} · {t.millimetres(number(choice.distanceTenthMm / 10))}
          {exposure === null || exposure.known === "measured"
            ? ""
            : ` · ${t.known[exposure.known]}`}
        </span>
      </p>
      <div className="actions">
        {enough === null || isRunning ? null : (
          <Button className="big" onClick={() => cure.setSeconds(enough)}>
            {t.cureFor(enough)}
          </Button>
        )}
        <Button className="big" onClick={() => ask(true)}>
          {t.lightAndDistance}
        </Button>
      </div>
      {asks ? <CureDialog cure={cure} onClose={() => ask(false)} /> : null}
    </div>
  );
}
