import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import type { RecordStep } from "./timer.ts";

interface StepLineProps {
  steps: readonly RecordStep[];
  current: string | null;
  onChoose: (stepKey: string) => void;
}

/** The steps as stations on one line: done ones filled, the present one larger. */
export function StepLine({ steps, current, onChoose }: StepLineProps): ReactNode {
  const t = useTexts();
  const stateOf = ({ done, leftOut }: RecordStep): string =>
    done ? t.chairside.done : leftOut ? t.chairside.leftOut : t.chairside.undone;
  return (
    <ol className="step-line" aria-label={t.chairside.steps}>
      {steps.map((step, index) => (
        <li key={step.key} className={step.done ? "done" : step.leftOut ? "left-out" : ""}>
          <button
            type="button"
            aria-current={step.key === current ? "step" : undefined}
            aria-label={`${step.name}, ${stateOf(step)}`}
            onClick={() => onChoose(step.key)}
          >
            <span>{index + 1}</span>
          </button>
        </li>
      ))}
    </ol>
  );
}
