import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";

/** Whether, and by whom, an entry was compared with its instructions: by shape and words. */
export function ComparedMark({ by }: { by: string | null }): ReactNode {
  const t = useTexts();
  return (
    <span className={by === null ? "compared-mark open" : "compared-mark"}>
      <VerdictShape verdict={by === null ? "caution" : "clear"} />
      <span>{by ?? t.catalogue.notCompared}</span>
    </span>
  );
}
