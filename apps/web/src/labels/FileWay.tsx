import { useState, type ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { Choice } from "../ui/Field.tsx";
import { dotsChoices, keepDots, readDots, type Dots } from "./remembered-choices.ts";
import type { PrintWork } from "./usePrintWork.ts";

/** Labels as a file for another program: all of them for a label printer, or one as a picture. */
export function FileWay({ work }: { work: PrintWork }): ReactNode {
  const { print: t } = useTexts().labels;
  const { printing, size, copies, first, count } = work;
  const [dotsPerInch, setDots] = useState(readDots);
  const save = (format: "zpl" | "svg" | "png") => () =>
    printing.toFile({ format, size, dotsPerInch }, { copies, from: first });
  return (
    <>
      <Choice<Dots>
        label={t.dots}
        value={dotsPerInch}
        options={dotsChoices.map((value) => ({ value, label: value }))}
        onChoose={(dots) => {
          keepDots(dots);
          setDots(dots);
        }}
      />
      <div className="actions">
        <Button busy={printing.busy} onClick={save("zpl")}>
          {t.zpl(count)}
        </Button>
        <Button busy={printing.busy} onClick={save("svg")}>
          {t.svg}
        </Button>
        <Button busy={printing.busy} onClick={save("png")}>
          {t.png}
        </Button>
      </div>
    </>
  );
}
