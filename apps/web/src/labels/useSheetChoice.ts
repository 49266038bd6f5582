import { useState } from "react";
import type { AnswerOf } from "#contracts/operations";
import { keepSheetId, keepStart, readSheetId, readStart } from "./remembered-choices.ts";
import { countPlaces, planSheets } from "./sheet-places.ts";

export type Sheet = AnswerOf<"listSheets">["sheets"][number];

export interface SheetChoice {
  sheet: Sheet;
  /** The first free label of the sheet in use. */
  start: number;
  choose: (id: string) => void;
  setStart: (start: number) => void;
  /** So many labels are on it now: the next ones begin behind them. */
  keepNext: (count: number) => void;
}

/** The sheet in use and its first free label, as they were left on this device. */
export function useSheetChoice(sheets: readonly Sheet[]): SheetChoice {
  const [id, setId] = useState(readSheetId);
  const sheet = sheets.find((one) => one.id === id) ?? sheets[0];
  if (sheet === undefined) throw new Error("the server knows no sheet of labels");
  const places = countPlaces(sheet);
  const [chosen, setChosen] = useState<{ id: string; start: number } | null>(null);
  const start = chosen?.id === sheet.id ? chosen.start : readStart(sheet.id, places);
  const setStart = (next: number) => {
    keepStart(sheet.id, next);
    setChosen({ id: sheet.id, start: next });
  };
  return {
    sheet,
    start,
    setStart,
    choose: (next) => {
      keepSheetId(next);
      setId(next);
    },
    keepNext: (count) => {
      keepSheetId(sheet.id);
      setStart(planSheets(count, start, places).nextFree);
    },
  };
}
