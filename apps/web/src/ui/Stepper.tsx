import { useId, type ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "./Button.tsx";

interface StepperProps {
  label: string;
  value: number;
  most: number;
  onChange: (value: number) => void;
  hint?: string;
}

/** A whole number from 1 on, by two large buttons or typed. */
export function Stepper({ label, value, most, onChange, hint }: StepperProps): ReactNode {
  const { common } = useTexts();
  const id = useId();
  const set = (count: number) => onChange(Math.min(Math.max(Math.trunc(count), 1), most));
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <div className="stepper">
        <Button
          aria-label={common.fewer(label)}
          disabled={value <= 1}
          onClick={() => set(value - 1)}
        >
          −
        </Button>
        <input
          id={id}
          className="input"
          type="number"
          inputMode="numeric"
          min={1}
          max={most}
          value={value}
          aria-describedby={hint === undefined ? undefined : `${id}-hint`}
          onChange={(event) => set(event.target.valueAsNumber || 1)}
        />
        <Button
          aria-label={common.more(label)}
          disabled={value >= most}
          onClick={() => set(value + 1)}
        >
          +
        </Button>
      </div>
      {hint === undefined ? null : (
        <p className="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
    </div>
  );
}
