import type { PrinterInput, PrinterView } from "#contracts/label-printing";
import { statement, type Tx } from "../db/transaction.ts";

const printers = statement<PrinterView>(
  "list-label-printers",
  `select id, name, host, port, dots_per_inch::text as "dotsPerInch",
          label_width_um as "labelWidthUm", label_height_um as "labelHeightUm"
   from label_printer where practice_id = $1 and ($2::uuid is null or id = $2) order by name`,
);
export const listPrinters = (tx: Tx) => tx.rows(printers, [tx.actor.practiceId, null]);
export async function findPrinter(tx: Tx, id: string): Promise<PrinterView | undefined> {
  return (await tx.rows(printers, [tx.actor.practiceId, id]))[0];
}

const valuesOf = (one: PrinterInput) => [
  one.name,
  one.host,
  one.port,
  Number(one.dotsPerInch),
  one.labelWidthUm,
  one.labelHeightUm,
];
const columns = "name, host, port, dots_per_inch, label_width_um, label_height_um";

const printerNew = statement(
  "insert-label-printer",
  `insert into label_printer (practice_id, id, ${columns}) values ($1, $2, $3, $4, $5, $6, $7, $8)`,
);
export const insertPrinter = (tx: Tx, id: string, one: PrinterInput) =>
  tx.rows(printerNew, [tx.actor.practiceId, id, ...valuesOf(one)]);

const printerChanged = statement<{ id: string }>(
  "update-label-printer",
  `update label_printer set (${columns}) = ($3, $4, $5, $6, $7, $8)
   where practice_id = $1 and id = $2 returning id`,
);
/** Whether there was such a printer. */
export async function updatePrinter(tx: Tx, id: string, one: PrinterInput): Promise<boolean> {
  return (await tx.rows(printerChanged, [tx.actor.practiceId, id, ...valuesOf(one)])).length > 0;
}

const printerGone = statement<{ name: string }>(
  "delete-label-printer",
  "delete from label_printer where practice_id = $1 and id = $2 returning name",
);
/** The name of the printer that was removed. */
export async function deletePrinter(tx: Tx, id: string): Promise<string | undefined> {
  return (await tx.rows(printerGone, [tx.actor.practiceId, id]))[0]?.name;
}

export interface PrintNew {
  id: string;
  printer: PrinterView;
  runId: string | null;
  first: number;
  labels: number;
}
const printNew = statement(
  "insert-label-print",
  `insert into label_print (practice_id, id, printer, host, port, run_id, first_label, labels,
                            asked_by, asked_at)
   values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
);
export const insertPrint = (tx: Tx, { id, printer, runId, first, labels }: PrintNew) =>
  tx.rows(printNew, [
    tx.actor.practiceId,
    id,
    printer.name,
    printer.host,
    printer.port,
    runId,
    first,
    labels,
    tx.actor.personId,
    tx.at,
  ]);

export interface OutcomeRow {
  outcome: "sent" | "unreachable" | "broken-off" | null;
  detail: string | null;
  asked_at: Date;
  host: string;
  port: number;
}
const outcome = statement<OutcomeRow>(
  "find-label-print-outcome",
  `select o.outcome, o.detail, p.asked_at, p.host, p.port
   from label_print p
   left join label_print_outcome o on o.practice_id = p.practice_id and o.print_id = p.id
   where p.practice_id = $1 and p.id = $2`,
);
export async function findOutcome(tx: Tx, printId: string): Promise<OutcomeRow | undefined> {
  return (await tx.rows(outcome, [tx.actor.practiceId, printId]))[0];
}

const outcomeNew = statement(
  "insert-label-print-outcome",
  `insert into label_print_outcome (practice_id, print_id, outcome, detail, at)
   values ($1, $2, $3, $4, $5)`,
);
export const insertOutcome = (tx: Tx, printId: string, told: { outcome: string; detail: string }) =>
  tx.rows(outcomeNew, [tx.actor.practiceId, printId, told.outcome, told.detail, tx.at]);
