import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Choice } from "../ui/Field.tsx";
import { Stepper } from "../ui/Stepper.tsx";
import { FileWay } from "./FileWay.tsx";
import { labelSizes, type LabelSize } from "./label-size.ts";
import { LabelPreview } from "./LabelPreview.tsx";
import type { Way } from "./remembered-choices.ts";
import { SheetWay } from "./SheetWay.tsx";
import type { PrintWork } from "./usePrintWork.ts";

const mostCopies = 10;

interface PrintFieldsProps {
  work: PrintWork;
  /** Something was printed, but not all of it. */
  asksForRest: boolean;
}

/** What will come out at the left, and how at the right. */
export function PrintFields({ work, asksForRest }: PrintFieldsProps): ReactNode {
  const { print: t } = useTexts().labels;
  const { way, printer, sheets, sheetChoice, size, subject, first, count, total, choose } = work;
  const stock = printer ?? (way === "sheet" ? sheetChoice.sheet : undefined);
  return (
    <div className="print-sides">
      <div className="print-picture">
        {subject === undefined ? null : (
          <LabelPreview
            {...{ subject, size, stock }}
            caption={total === 1 ? "" : t.numbered(first, total)}
          />
        )}
        {way === "sheet" ? <SheetWay {...{ sheets, count }} choice={sheetChoice} /> : null}
      </div>
      <div className="print-choices">
        <WayChoice work={work} />
        {way === "file" ? <FileWay work={work} /> : null}
        <Stepper label={t.copies} value={work.copies} most={mostCopies} onChange={choose.copies} />
        {total === 1 ? null : (
          <details className="print-rest" open={asksForRest || first > 1 || undefined}>
            <summary>{t.rest}</summary>
            <Stepper
              label={t.from}
              hint={t.fromHint(total)}
              value={first}
              most={total}
              onChange={choose.first}
            />
          </details>
        )}
      </div>
    </div>
  );
}

function WayChoice({ work }: { work: PrintWork }): ReactNode {
  const { print: t } = useTexts().labels;
  const { printers, way, size, choose } = work;
  return (
    <>
      <Choice<Way>
        label={t.way}
        value={way}
        onChoose={choose.way}
        options={[
          ...printers.map(({ id, name }) => ({ value: `printer:${id}` as Way, label: name })),
          { value: "sheet", label: t.ways.sheet },
          { value: "roll", label: t.ways.roll },
          { value: "file", label: t.ways.file },
        ]}
      />
      {way === "roll" || way === "file" ? (
        <Choice<LabelSize>
          label={t.size}
          value={size}
          onChoose={choose.size}
          options={labelSizes.map((value) => ({ value, label: t.sizes[value] }))}
        />
      ) : null}
    </>
  );
}
