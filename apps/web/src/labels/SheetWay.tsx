import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Select } from "../ui/Field.tsx";
import { Stepper } from "../ui/Stepper.tsx";
import { SheetTap } from "./SheetPicture.tsx";
import { countPlaces, planSheets } from "./sheet-places.ts";
import type { Sheet, SheetChoice } from "./useSheetChoice.ts";

interface SheetWayProps {
  sheets: readonly Sheet[];
  choice: SheetChoice;
  /** How many labels will be printed. */
  count: number;
}

/** Which sheet, and the first label of it that is still free. */
export function SheetWay({ sheets, choice, count }: SheetWayProps): ReactNode {
  const { print: t } = useTexts().labels;
  const { sheet, start, setStart } = choice;
  const places = countPlaces(sheet);
  const needed = planSheets(count, start, places).sheets;
  return (
    <>
      <Select
        label={t.sheet}
        value={sheet.id}
        hint={t.sheetsNeeded(needed)}
        onChange={(event) => choice.choose(event.target.value)}
      >
        {sheets.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </Select>
      <div className="sheet-start">
        <SheetTap
          shape={sheet}
          due={{ start, count }}
          places={places}
          label={t.tapFirstFree(start, places)}
          onStart={setStart}
        />
        <Stepper label={t.firstFree} value={start} most={places} onChange={setStart} />
      </div>
    </>
  );
}
