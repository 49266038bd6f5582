import type { ReactNode } from "react";
import { Link } from "wouter";
import { showContainerCode } from "#domain";
import type { AnswerOf } from "#contracts/operations";
import { ApiProblem } from "../api/problem.ts";
import { useRead } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useStepNames } from "../texts/useStepNames.ts";
import { QueryView } from "../ui/States.tsx";
import { Table, type Column } from "../ui/Table.tsx";
import { showTooth } from "../texts/tooth-notation.ts";

type Tooth = AnswerOf<"tracePatient">["teeth"][number];
type Row = Tooth["materials"][number] & { tooth: string; recordId: string };

/** From a chart, or one of its teeth, back to the lots. */
export function PatientLots({ chart, tooth }: { chart: string; tooth: string }): ReactNode {
  const { patient } = useTexts().records;
  const query = useRead("tracePatient", { query: { chart, ...(tooth === "" ? {} : { tooth }) } });
  const isUnknown = query.error instanceof ApiProblem && query.error.code === "not-found";
  const title = tooth === "" ? patient.title(chart) : patient.titleTooth(chart, showTooth(tooth));
  return (
    <section className="panel">
      <h2>{title}</h2>
      {isUnknown ? (
        <p>{patient.none}</p>
      ) : (
        <QueryView query={query}>
          {({ teeth }) => <LotTable title={title} teeth={teeth} chart={chart} />}
        </QueryView>
      )}
    </section>
  );
}

interface LotTableProps {
  title: string;
  teeth: readonly Tooth[];
  chart: string;
}

function LotTable({ title, teeth, chart }: LotTableProps): ReactNode {
  const { patient } = useTexts().records;
  const columns = useLotColumns();
  const rows = teeth.flatMap(({ tooth, recordId, materials }) =>
    materials.map((material): Row => ({ ...material, tooth, recordId })),
  );
  if (rows.length === 0) return <p>{patient.noMaterials}</p>;
  return (
    <Table
      caption={title}
      columns={columns}
      rows={rows}
      rowKey={(row) => `${row.recordId} ${row.stepKey} ${row.usedAt} ${row.containerCode ?? ""}`}
      exportName={`lots-of-${chart}`}
    />
  );
}

function useLotColumns(): readonly Column<Row>[] {
  const { columns, notScanned } = useTexts().records.patient;
  const { dateTime, shortDate } = useFormats();
  const stepName = useStepNames();
  const of = (key: keyof typeof columns, value: (row: Row) => string | null) => ({
    key,
    label: columns[key],
    value,
    show: value as (row: Row) => ReactNode,
  });
  return [
    {
      ...of("tooth", ({ tooth }) => tooth),
      show: ({ tooth }) => <strong>{showTooth(tooth)}</strong>,
    },
    {
      ...of("date", ({ usedAt }) => usedAt),
      show: ({ usedAt, recordId }) => (
        <Link to={paths.record(recordId)} className="name-link whole">
          {dateTime(usedAt)}
        </Link>
      ),
    },
    of("step", ({ stepKey }) => stepName(stepKey)),
    of("product", ({ productName }) => productName),
    {
      ...of("lot", ({ lot }) => lot),
      show: ({ lot }) =>
        lot === null ? (
          <span className="soft">{notScanned}</span>
        ) : (
          <Link to={paths.withdrawals({ lot })} className="name-link whole">
            {lot}
          </Link>
        ),
    },
    {
      ...of("useBy", ({ useBy }) => useBy),
      show: ({ useBy }) => (useBy === null ? null : shortDate(useBy)),
    },
    of("container", ({ containerCode }) =>
      containerCode === null ? null : showContainerCode(containerCode),
    ),
  ];
}
