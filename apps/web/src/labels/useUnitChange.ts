import { useFormats } from "../texts/useFormats.ts";
import { readLength, showLength, type LengthUnit } from "./lengths.ts";

/** Writes lengths in another unit; what is no length stays as it was typed. */
export function useUnitChange() {
  const { language } = useFormats();
  return <T extends Readonly<Record<string, string>>>(
    typed: T,
    from: LengthUnit,
    to: LengthUnit,
  ): T => {
    const other = Object.entries(typed).map(([name, text]) => {
      const um = readLength(text, from);
      return [name, um === null ? text : showLength(um, to, language)] as const;
    });
    return Object.fromEntries(other) as T;
  };
}
