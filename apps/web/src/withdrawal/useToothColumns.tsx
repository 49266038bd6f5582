import type { ReactNode } from "react";
import { Link } from "wouter";
import { showContainerCode } from "#domain";
import { getMessages } from "#texts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useStepNames } from "../texts/useStepNames.ts";
import type { Column } from "../ui/Table.tsx";
import { CertaintyMark } from "./CertaintyMark.tsx";
import type { AffectedTooth } from "./sums.ts";
import { showTooth } from "../texts/tooth-notation.ts";

/** The affected teeth as a list; product and lot only where it is about several lots. */
export function useToothColumns(withLot: boolean): readonly Column<AffectedTooth>[] {
  const { teeth, certainty, certaintyWhy } = useTexts().withdrawal;
  const { language, shortDate, civilDate } = useFormats();
  const { recordStates } = getMessages(language);
  const stepName = useStepNames();
  const { columns, visits } = teeth;
  const of = (key: keyof typeof columns, value: (tooth: AffectedTooth) => string) => ({
    key,
    label: columns[key],
    value,
    show: value as (tooth: AffectedTooth) => ReactNode,
  });
  const nameOf = (names: Readonly<Record<string, string>>, key: string) => names[key] ?? key;
  const all: Column<AffectedTooth>[] = [
    {
      ...of("certainty", (tooth) => certainty[tooth.certainty]),
      show: (tooth) => (
        <span className={`certainty ${tooth.certainty}`} title={certaintyWhy[tooth.certainty]}>
          <CertaintyMark certainty={tooth.certainty} />
          {certainty[tooth.certainty]}
        </span>
      ),
    },
    {
      ...of("chart", ({ chartNumber }) => chartNumber),
      show: ({ chartNumber }) => (
        <Link to={paths.records({ chart: chartNumber })} className="name-link whole">
          {chartNumber}
        </Link>
      ),
    },
    {
      ...of("tooth", ({ tooth }) => tooth),
      show: ({ tooth }) => <strong>{showTooth(tooth)}</strong>,
    },
    of("product", ({ product }) => product),
    of("lot", ({ lot }) => lot),
    of("visit", ({ visit }) => nameOf(visits, visit)),
    of("step", ({ stepKey }) => stepName(stepKey)),
    of("container", ({ containerCode }) =>
      containerCode === null ? "" : showContainerCode(containerCode),
    ),
    {
      ...of("used", ({ usedAt }) => usedAt),
      show: ({ usedAt, recordId }) => (
        <Link to={paths.record(recordId)} className="name-link whole">
          {shortDate(civilDate(usedAt))}
        </Link>
      ),
    },
    of("record", ({ recordState }) => nameOf(recordStates, recordState)),
  ];
  return withLot
    ? all
    : all.filter(({ key }) => !["product", "lot", "visit", "record"].includes(key));
}
