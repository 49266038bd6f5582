import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { TextField } from "../ui/Field.tsx";
import type { LengthUnit } from "./lengths.ts";

interface LengthFieldProps {
  label: string;
  unit: LengthUnit;
  value: string;
  hint?: string;
  error?: string | undefined;
  onChange: (value: string) => void;
}

/** A length as it is typed, with its unit in its name. */
export function LengthField({ label, unit, onChange, ...field }: LengthFieldProps): ReactNode {
  const { unitSigns } = useTexts().labels;
  return (
    <TextField
      {...field}
      label={`${label} (${unitSigns[unit]})`}
      required
      inputMode={unit === "mm" ? "decimal" : "text"}
      autoComplete="off"
      onChange={(event) => onChange(event.target.value)}
    />
  );
}
