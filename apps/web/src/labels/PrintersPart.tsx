import { useMutation } from "@tanstack/react-query";
import { useState, type ReactNode } from "react";
import type { AnswerOf } from "#contracts/operations";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { useHasRole } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Ask } from "../ui/Dialog.tsx";
import { EmptyState, QueryView } from "../ui/States.tsx";
import { Table } from "../ui/Table.tsx";
import { DeskActs } from "./DeskActs.tsx";
import { PrinterDialog } from "./PrinterDialog.tsx";
import { PrintProblem } from "./PrintOutcome.tsx";
import { SheetsPanel } from "./SheetsPanel.tsx";
import { useJob } from "./useJob.ts";
import { useShowSize } from "./useShowSize.ts";
import "./labels.css";

type Printer = AnswerOf<"listPrinters">["printers"][number];

/** What labels are printed on: label printers and sheets. */
export function PrintersPart(): ReactNode {
  const { printers: t } = useTexts().labels;
  const isDesk = useHasRole("office", "owner");
  const query = useRead("listPrinters");
  const [changing, change] = useState<Printer | "new" | null>(null);
  return (
    <>
      <section className="panel">
        <div className="panel-head">
          <div>
            <h2>{t.title}</h2>
            <p className="hint">{t.lead}</p>
          </div>
          {isDesk ? <Button onClick={() => change("new")}>{t.add}</Button> : null}
        </div>
        <QueryView query={query}>
          {({ printers }) =>
            printers.length === 0 ? (
              <EmptyState text={t.empty} />
            ) : (
              <PrinterTable {...{ printers, isDesk }} onChange={change} />
            )
          }
        </QueryView>
        {isDesk ? null : <p className="hint">{t.deskChanges}</p>}
      </section>
      <SheetsPanel />
      {changing === null ? null : (
        <PrinterDialog
          printer={changing === "new" ? null : changing}
          onClose={() => change(null)}
        />
      )}
    </>
  );
}

interface PrinterTableProps {
  printers: readonly Printer[];
  isDesk: boolean;
  onChange: (printer: Printer) => void;
}

function PrinterTable({ printers, isDesk, onChange }: PrinterTableProps): ReactNode {
  const { printers: t } = useTexts().labels;
  const showSize = useShowSize();
  const announce = useAnnounce();
  const [removing, remove] = useState<Printer | null>(null);
  const sendTest = useJob("testPrinter");
  const test = useMutation({
    mutationFn: ({ id }: Printer) => sendTest({ params: { printerId: id } }),
    onSuccess: ({ printer }) => announce({ text: t.tested(printer) }),
  });
  const testedId = test.isPending ? test.variables.id : null;
  return (
    <>
      <PrintProblem error={test.error} />
      <Table
        caption={t.title}
        rows={printers}
        rowKey={({ id }) => id}
        columns={[
          { key: "name", label: t.columns.name, show: ({ name }) => <strong>{name}</strong> },
          {
            key: "address",
            label: t.columns.address,
            show: ({ host, port }) => (
              <span className="code">
                {host}:{port}
              </span>
            ),
          },
          {
            key: "label",
            label: t.columns.label,
            show: (printer) => (
              <span>
                {showSize(printer.labelWidthUm, printer.labelHeightUm)}{" "}
                <span className="soft">· {t.dots(printer.dotsPerInch)}</span>
              </span>
            ),
          },
          {
            key: "act",
            label: t.columns.act,
            show: (printer) => (
              <span className="row-acts">
                <Button busy={testedId === printer.id} onClick={() => test.mutate(printer)}>
                  {t.test}
                </Button>
                {isDesk ? (
                  <DeskActs
                    of="printers"
                    name={printer.name}
                    onChange={() => onChange(printer)}
                    onRemove={() => remove(printer)}
                  />
                ) : null}
              </span>
            ),
          },
        ]}
      />
      {removing === null ? null : <RemovePrinter printer={removing} onClose={() => remove(null)} />}
    </>
  );
}

function RemovePrinter({ printer, onClose }: { printer: Printer; onClose: () => void }): ReactNode {
  const { common, labels } = useTexts();
  const { printers: t } = labels;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const remove = useWrite("removePrinter", () => {
    refresh("listPrinters");
    announce({ text: t.removed(printer.name) });
    onClose();
  });
  return (
    <Ask
      title={t.removeTitle(printer.name)}
      text={t.removeText}
      yes={common.remove}
      busy={remove.isPending}
      onNo={onClose}
      onYes={() => remove.mutate({ params: { printerId: printer.id } })}
    />
  );
}
