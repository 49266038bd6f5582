import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { civilDateAt, showContainerCode, showToothIn } from "#domain";
import type { TrayView } from "#contracts/trays";
import { fill, getMessages, getPaper, makeTimeFormats, type Language } from "#texts";
import { inRead } from "../db/transaction.ts";
import { writePaper, type Paper } from "../drawing/write-paper.ts";
import type { SentFile } from "../http/file.ts";
import type { Call } from "../http/operation.ts";
import { listTraysOn, loadTrays } from "./tray-facts.store.ts";
import { assignVisitSteps, trayView } from "./tray-view.ts";

interface SheetTold {
  trays: { view: TrayView; steps: readonly { key: string; name: string }[] }[];
  on: string;
  language: Language;
  timeZone: string;
  at: Date;
}

const a4 = { width: 210, height: 297 };
const blankSteps = 10;

/** What is written on while the system is away; entered afterwards with both times. */
@Injectable()
export class DowntimeService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  async getDowntimeSheet(call: Call<"getDowntimeSheet">): Promise<SentFile> {
    const { language: own, timeZone } = call.actor;
    const language = call.query.language ?? own;
    const on = call.query.on ?? civilDateAt(call.at.toISOString(), timeZone);
    const trays = await inRead(this.db, call, async (tx) => {
      const loaded = await loadTrays(tx, await listTraysOn(tx, on));
      const open = loaded.filter(
        ({ head }) => head.records.length === 0 && head.state !== "cleared",
      );
      return open.map((tray) => ({
        view: trayView(tx, tray),
        steps: assignVisitSteps(tray.facts).steps.map(({ step }) => step),
      }));
    });
    const bytes = await writeSheet({ trays, on, language, timeZone, at: call.at });
    return { media: "application/pdf", name: `downtime-${on}.pdf`, bytes };
  }
}

function writeSheet({ trays, on, language, timeZone, at }: SheetTold): Promise<Uint8Array> {
  const { downtime: words, record } = getPaper(language);
  const title = fill(language, words.title, { day: on });
  const { time, dateTime } = makeTimeFormats(language, timeZone);
  const printed = fill(language, words.printed, { when: dateTime(at.toISOString()) });
  return writePaper(
    {
      size: a4,
      title,
      language,
      at,
      foot: (page, pages) => `${printed} · ${fill(language, record.page, { page, pages })}`,
    },
    (paper) => {
      for (const { view, steps } of trays) {
        writeHead(paper, title, language);
        paper.field(words.chart, view.chartNumber);
        paper.field(
          words.teeth,
          view.teeth.map(({ tooth }) => showToothIn("fdi", tooth)).join(", "),
        );
        paper.field(words.technique, view.technique.name);
        paper.field(words.planned, `${time(view.appointmentAt)}, ${view.location.name}`);
        paper.field(words.begun, words.blank);
        for (const [index, { key, name }] of steps.entries()) {
          const set = view.items.filter(({ stepKeys }) => stepKeys.includes(key));
          writeStep(paper, words, { place: index + 1, name, set: set.flatMap(nameSet) });
        }
        writeEnd(paper, language);
        paper.page();
      }
      writeHead(paper, title, language);
      for (const label of [words.chart, words.teeth, words.technique, words.begun]) {
        paper.field(label, words.blank);
      }
      for (let place = 1; place <= blankSteps; place += 1) {
        writeStep(paper, words, { place, name: words.blank, set: [] });
      }
      writeEnd(paper, language);
    },
  );
}

const nameSet = ({ container }: TrayView["items"][number]): string[] =>
  container === null
    ? []
    : [`${container.product.name} ${showContainerCode(container.code)}, ${container.lot}`];

function writeHead(paper: Paper, title: string, language: Language): void {
  paper.title(title);
  paper.small(getPaper(language).downtime.lead);
}

type Words = ReturnType<typeof getPaper>["downtime"];

function writeStep(
  paper: Paper,
  words: Words,
  { place, name, set }: { place: number; name: string; set: readonly string[] },
): void {
  const planned = set.length === 0 ? [] : [`${words.set} ${set.join("; ")}`];
  paper.item(`${place}. ${name}`, [...planned, words.container, words.times]);
}

function writeEnd(paper: Paper, language: Language): void {
  const { downtime: words } = getPaper(language);
  paper.field(words.deviations, words.blank);
  paper.field(words.signature, words.blank);
  paper.small(getMessages(language).cautions.aid);
}
