import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { showLength, type LengthUnit } from "./lengths.ts";

/** Width by height, in millimetres unless said otherwise. */
export function useShowSize(): (widthUm: number, heightUm: number, unit?: LengthUnit) => string {
  const { language } = useFormats();
  const { unitSigns } = useTexts().labels;
  return (widthUm, heightUm, unit = "mm") =>
    `${showLength(widthUm, unit, language)} × ${showLength(heightUm, unit, language)} ${unitSigns[unit]}`;
}
