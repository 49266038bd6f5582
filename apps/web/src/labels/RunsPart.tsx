import { useState, type ReactNode } from "react";
import type { AnswerOf } from "#contracts/operations";
import { call } from "../api/client.ts";
import { useRead } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { EmptyState, QueryView, useSayError } from "../ui/States.tsx";
import { Table } from "../ui/Table.tsx";
import { PrintOverlay } from "./PrintButton.tsx";
import type { LabelsToPrint } from "./usePrintWork.ts";

type Run = AnswerOf<"listLabelRuns">["runs"][number];

/** What labels were printed, by whom and when; any run can be printed again. */
export function RunsPart(): ReactNode {
  const { runs: t } = useTexts().labels;
  const query = useRead("listLabelRuns");
  const [labels, setLabels] = useState<LabelsToPrint | null>(null);
  return (
    <>
      <p className="lead">{t.lead}</p>
      <QueryView query={query}>
        {({ runs }) =>
          runs.length === 0 ? (
            <EmptyState text={t.empty} />
          ) : (
            <RunTable runs={runs} onPrint={setLabels} />
          )
        }
      </QueryView>
      <p className="hint">{t.places}</p>
      <PrintOverlay labels={labels} onClose={() => setLabels(null)} />
    </>
  );
}

interface RunTableProps {
  runs: readonly Run[];
  onPrint: (labels: LabelsToPrint) => void;
}

function RunTable({ runs, onPrint }: RunTableProps): ReactNode {
  const { runs: t } = useTexts().labels;
  const { dateTime } = useFormats();
  const announce = useAnnounce();
  const sayError = useSayError();
  const [asked, ask] = useState<string | null>(null);
  async function again({ id, copies }: Run): Promise<void> {
    ask(id);
    try {
      const { labels } = await call("getLabelRun", { params: { runId: id } });
      const subjects = labels.map(({ subject }) => subject);
      const size = subjects.some(({ kind }) => kind === "container") ? "bottle" : "place";
      onPrint({ subjects, size, reprintOf: { runId: id, copies } });
    } catch (error) {
      announce({ text: sayError(error), tone: "bad" });
    }
    ask(null);
  }
  const count = ({ labels, copies }: Run) => t.copies(labels * copies, copies);
  return (
    <Table
      caption={t.lead}
      rows={runs}
      rowKey={({ id }) => id}
      exportName="label-runs"
      columns={[
        {
          key: "at",
          label: t.columns.at,
          value: ({ madeAt }) => madeAt,
          show: ({ madeAt }) => dateTime(madeAt),
        },
        {
          key: "by",
          label: t.columns.by,
          value: ({ madeBy }) => madeBy,
          show: ({ madeBy }) => madeBy,
        },
        {
          key: "labels",
          label: t.columns.labels,
          value: ({ labels, copies }) => labels * copies,
          show: count,
        },
        {
          key: "reprint",
          label: t.columns.reprint,
          value: ({ reprintOf }) => (reprintOf === null ? null : t.isReprint),
          show: ({ reprintOf }) =>
            reprintOf === null ? null : <span className="soft">{t.isReprint}</span>,
        },
        {
          key: "act",
          label: t.columns.act,
          show: (run) => (
            <Button
              busy={asked === run.id}
              aria-label={t.againOf(dateTime(run.madeAt))}
              onClick={() => void again(run)}
            >
              {t.again}
            </Button>
          ),
        },
      ]}
    />
  );
}
