import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import type { PrinterView, Printed } from "#contracts/label-printing";
import { inCommand, inRead, type Submission, type Tx } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import { dotUmOf } from "../drawing/draw-raster.ts";
import type { Actor } from "../http/actor.ts";
import { Clock } from "../http/clock.ts";
import type { Answer, Call } from "../http/operation.ts";
import { notFound, Problem } from "../http/problem.ts";
import { drawLabels, remainingOf, zplOf } from "../labels/draw-labels.ts";
import { readContents } from "../labels/label-content.ts";
import { findRun } from "../labels/labels.store.ts";
import { drawCalibration } from "./calibration-label.ts";
import * as store from "./printers.store.ts";
import { problemOfOutcome } from "./print-problem.ts";
import { sendToPrinter } from "./send-to-printer.ts";

/** What is to be sent; `labels` counts copies, too. */
interface Job {
  printer: PrinterView;
  runId: string | null;
  first: number;
  labels: number;
}
/** As kept for a repeated key: by the id it is known whether this call is the first. */
type Claimed = Printed & { printId: string };

/** Longer than sending can take: with no outcome by then, the server stopped meanwhile. */
const underWayMs = 120_000;

@Injectable()
export class PrintersService {
  constructor(
    @Inject(DataSource) private readonly db: DataSource,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  listPrinters(call: Call<"listPrinters">): Promise<Answer<"listPrinters">> {
    return inRead(this.db, call, async (tx) => ({ printers: await store.listPrinters(tx) }));
  }

  addPrinter(call: Call<"addPrinter">): Promise<PrinterView> {
    return inCommand(this.db, call, async (tx) => {
      const id = newId();
      await store.insertPrinter(tx, id, call.body);
      tx.audit("printer-added", `label-printer:${id}`, call.body);
      return { id, ...call.body };
    });
  }

  changePrinter(call: Call<"changePrinter">): Promise<PrinterView> {
    const { printerId: id } = call.params;
    return inCommand(this.db, call, async (tx) => {
      if (!(await store.updatePrinter(tx, id, call.body))) throw notFound("printer");
      tx.audit("printer-changed", `label-printer:${id}`, call.body);
      return { id, ...call.body };
    });
  }

  removePrinter(call: Call<"removePrinter">): Promise<Answer<"removePrinter">> {
    const { printerId: id } = call.params;
    return inCommand(this.db, call, async (tx) => {
      const name = await store.deletePrinter(tx, id);
      if (name === undefined) throw notFound("printer");
      tx.audit("printer-removed", `label-printer:${id}`, { name });
      return { done: true as const };
    });
  }

  async testPrinter(call: Call<"testPrinter">): Promise<Printed> {
    const printer = await inRead(this.db, call, (tx) => getPrinter(tx, call.params.printerId));
    const drawing = await drawCalibration(printer, call.actor.language);
    const zpl = await zplOf([{ drawing, copies: 1 }], dotUmOf(printer.dotsPerInch));
    return this.printOnce(call, { printer, runId: null, first: 1, labels: 1 }, zpl);
  }

  async printRun(call: Call<"printRun">): Promise<Printed> {
    const { runId, from } = call.body;
    const { printer, run } = await inRead(this.db, call, async (tx) => {
      const found = await findRun(tx, runId);
      const asked = await getPrinter(tx, call.params.printerId);
      if (!found) throw notFound("label run");
      const labels = await readContents(tx, runId);
      return { printer: asked, run: { copies: found.copies, labels } };
    });
    const remaining = remainingOf(run, from);
    const labels = remaining.reduce((sum, { copies }) => sum + copies, 0);
    const zpl = await drawRun(remaining, printer, call.actor);
    return this.printOnce(call, { printer, runId, first: from, labels }, zpl);
  }

  /**
   * What is to be sent is written down with the request's key before the first byte leaves, and how
   * it went afterwards. So a repeated key never prints again, whatever became of the first answer:
   * it is told how it went. A new press of the button is a new key.
   */
  private async printOnce(
    call: { actor: Actor; at: Date; submission: Submission },
    job: Job,
    zpl: readonly string[],
  ): Promise<Printed> {
    const printId = newId();
    const { printer, ...told } = job;
    const { name, host, port } = printer;
    const claimed = await inCommand<Claimed>(this.db, call, async (tx) => {
      await store.insertPrint(tx, { id: printId, ...job });
      tx.audit("labels-sent", `label-print:${printId}`, { printer: name, host, port, ...told });
      return { printId, printer: name, labels: told.labels };
    });
    const printed = { printer: claimed.printer, labels: claimed.labels };
    if (claimed.printId !== printId) return this.toldBefore(call, claimed.printId, printed);
    const sent = await sendToPrinter(printer, zpl);
    const result = {
      outcome: sent.outcome,
      detail: sent.outcome === "unreachable" ? sent.why : "",
    };
    const after = { actor: call.actor, at: this.clock.now(), submission: null };
    await inCommand(this.db, after, async (tx) => {
      await store.insertOutcome(tx, printId, result);
      tx.audit("labels-print-outcome", `label-print:${printId}`, result);
      return null;
    });
    if (sent.outcome === "sent") return printed;
    throw problemOfOutcome(result, printer);
  }

  private toldBefore(
    call: { actor: Actor; at: Date },
    printId: string,
    printed: Printed,
  ): Promise<Printed> {
    return inRead(this.db, call, async (tx) => {
      const before = (await store.findOutcome(tx, printId))!;
      if (before.outcome === "sent") return printed;
      const { outcome, detail } = before;
      if (outcome !== null) throw problemOfOutcome({ outcome, detail: detail ?? "" }, before);
      if (call.at.getTime() - before.asked_at.getTime() < underWayMs) {
        throw new Problem(
          "request-in-progress",
          "These labels are on their way to the printer. Look there in a moment.",
          { retryAfterSeconds: 5 },
        );
      }
      throw problemOfOutcome({ outcome: "broken-off", detail: "" }, before);
    });
  }
}

async function getPrinter(tx: Tx, id: string): Promise<PrinterView> {
  const printer = await store.findPrinter(tx, id);
  if (!printer) throw notFound("printer");
  return printer;
}

async function drawRun(
  remaining: ReturnType<typeof remainingOf>,
  printer: PrinterView,
  { language }: Actor,
): Promise<string[]> {
  const dotUm = dotUmOf(printer.dotsPerInch);
  const size = { widthUm: printer.labelWidthUm, heightUm: printer.labelHeightUm, dotUm };
  const contents = remaining.map(({ content }) => content);
  const drawings = await drawLabels(contents, size, language);
  const labels = drawings.map((drawing, index) => ({
    drawing,
    copies: remaining[index]!.copies,
  }));
  return zplOf(labels, dotUm);
}
