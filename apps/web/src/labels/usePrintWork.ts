import { useState } from "react";
import type { AnswerOf } from "#contracts/operations";
import type { LabelSize } from "./label-size.ts";
import { keepWay, readWay, type Way } from "./remembered-choices.ts";
import { usePrinting, type Printing, type Subject } from "./usePrinting.ts";
import { useSheetChoice, type Sheet, type SheetChoice } from "./useSheetChoice.ts";

type Printer = AnswerOf<"listPrinters">["printers"][number];

export interface LabelsToPrint {
  subjects: readonly Subject[];
  /** The size that fits what the labels are for. */
  size: LabelSize;
  /** The run that is printed again, and how many of each it had. */
  reprintOf?: { runId: string; copies: number };
}

/** All that is chosen in the print dialog, and the printing itself. */
export interface PrintWork {
  printing: Printing;
  printers: readonly Printer[];
  sheets: readonly Sheet[];
  way: Way;
  /** The printer, where the way is one. */
  printer: Printer | undefined;
  size: LabelSize;
  copies: number;
  sheetChoice: SheetChoice;
  /** All labels, the first one to print, and how many that leaves. */
  total: number;
  first: number;
  count: number;
  /** What the label shown is for. */
  subject: Subject | undefined;
  choose: {
    way: (way: Way) => void;
    size: (size: LabelSize) => void;
    copies: (copies: number) => void;
    first: (number: number) => void;
  };
  print: () => void;
}

interface KnownStock {
  printers: readonly Printer[];
  sheets: readonly Sheet[];
}

export function usePrintWork(labels: LabelsToPrint, { printers, sheets }: KnownStock): PrintWork {
  const { subjects, reprintOf } = labels;
  const [way, setWay] = useState(() => readWay(printers.map(({ id }) => id)));
  const [size, setSize] = useState(labels.size);
  const [copies, setCopies] = useState(reprintOf?.copies ?? 1);
  const [from, setFrom] = useState(1);
  const sheetChoice = useSheetChoice(sheets);
  const printing = usePrinting(subjects, reprintOf?.runId);
  const total = subjects.length * copies;
  const first = Math.min(from, total);
  const count = total - first + 1;
  const printer = printers.find(({ id }) => way === `printer:${id}`);
  function print(): void {
    const batch = { copies, from: first };
    if (printer !== undefined) return printing.toPrinter(printer.id, batch);
    if (way === "roll") return printing.toPdf({ format: "roll", size }, batch);
    const { sheet, start, keepNext } = sheetChoice;
    const asked = { format: "sheet", sheet: sheet.id, startAt: start } as const;
    return printing.toPdf(asked, batch, () => keepNext(count));
  }
  return {
    ...{ printing, printers, sheets, way, printer, size, copies, sheetChoice, total, first, count },
    subject: subjects[Math.floor((first - 1) / copies)],
    choose: {
      way: (next) => {
        keepWay(next);
        setWay(next);
      },
      size: setSize,
      copies: setCopies,
      first: setFrom,
    },
    print,
  };
}
