import { civilDateAt, describeTooth, showContainerCode } from "#domain";
import type { FindingView } from "#contracts/findings";
import type { PlannedStep, RecordView } from "#contracts/records";
import {
  fill,
  getMessages,
  getPaper,
  makeTimeFormats,
  sayEvent,
  sayFinding,
  sayTooth,
  sayVerdict,
  type Language,
} from "#texts";
import { writePaper, type Paper } from "../drawing/write-paper.ts";
import type { SentFile } from "../http/file.ts";

export interface RecordOnPaper {
  record: RecordView;
  practice: string;
  language: Language;
  timeZone: string;
  at: Date;
}

const a4 = { width: 210, height: 297 };

/** A record to be kept on paper or in an archive: everything that its signature stands for. */
export async function writeRecord(told: RecordOnPaper): Promise<SentFile> {
  const { record, practice, language, at } = told;
  const { record: words } = getPaper(language);
  const { dateTime } = makeTimeFormats(language, told.timeZone);
  const foot = fill(language, words.foot, {
    practice,
    chart: record.chartNumber,
    tooth: record.tooth,
    version: record.version,
    when: dateTime(at.toISOString()),
  });
  const title = words.titles[record.visit];
  const bytes = await writePaper(
    {
      size: a4,
      title: `${title} ${record.chartNumber} ${record.tooth}`,
      language,
      at,
      foot: (page, pages) => `${foot} · ${fill(language, words.page, { page, pages })}`,
    },
    (paper) => {
      paper.title(title);
      if (record.state !== "signed") paper.mark(words.states[record.state]);
      writeHead(paper, told);
      paper.heading(words.steps);
      record.steps.forEach((step, index) => writeStep(paper, told, { step, index }));
      paper.heading(words.check);
      writeCheck(paper, told);
      paper.heading(words.happened);
      const events = record.events.toSorted(
        (one, other) => Date.parse(one.occurredAt) - Date.parse(other.occurredAt),
      );
      for (const event of events) writeEvent(paper, told, event);
      writeCautions(paper, language);
    },
  );
  return { media: "application/pdf", name: `record-${record.id}.pdf`, bytes };
}

function nameTooth(tooth: string, language: Language): string {
  const described = describeTooth(tooth);
  return described === null ? "" : sayTooth(language, described);
}

function writeHead(paper: Paper, { record, practice, language, timeZone }: RecordOnPaper): void {
  const { record: words } = getPaper(language);
  const { dateTime } = makeTimeFormats(language, timeZone);
  const { technique, tooth, mode, surfaces, restoration, signed } = record;
  const by = (when: string, person: string): string =>
    fill(language, words.by, { when: dateTime(when), person });
  paper.field(words.practice, practice);
  paper.field(words.chart, record.chartNumber);
  paper.field(words.tooth, `${tooth}, ${nameTooth(tooth, language)}`);
  if (surfaces !== "") paper.field(words.surfaces, surfaces);
  if (restoration !== null) paper.field(words.restoration, words.restorations[restoration]);
  if (mode !== null) paper.field(words.mode, words.modes[mode]);
  const named = { technique: technique.name, version: technique.version };
  paper.field(words.technique, fill(language, words.techniqueVersion, named));
  paper.field(words.begun, by(record.startedAt, record.startedBy));
  if (record.toldAt !== null) paper.field(words.told, dateTime(record.toldAt));
  const sayVersion = ({ version, amends, reason }: RecordView["versions"][number]): string =>
    amends === null
      ? String(version)
      : fill(language, words.amends[amends], { version, reason: reason ?? "" });
  const earlier = record.versions.filter(({ version }) => version < record.version);
  for (const one of earlier) {
    const told = one.signed === null ? words.notSigned : by(one.signed.at, one.signed.by);
    paper.field(words.earlier, `${sayVersion(one)} · ${told}`);
  }
  paper.field(words.version, sayVersion(record.versions[earlier.length]!));
  paper.field(words.signed, signed === null ? words.notSigned : by(signed.at, signed.by));
  if (signed === null) return;
  paper.field(words.meaning, words.signatureMeaning);
  paper.field(words.seal, (signed.hash.match(/.{1,8}/g) ?? []).join(" "));
}

const timedFields = {
  application: "applicationSeconds",
  "air-dry": "airDrySeconds",
  cure: "cureSeconds",
} as const;
const parts = ["application", "air-dry", "cure"] as const;

function writeStep(
  paper: Paper,
  { record, language }: RecordOnPaper,
  { step, index }: { step: PlannedStep; index: number },
): void {
  const { record: words } = getPaper(language);
  const planned = parts.flatMap((part) => {
    const time = step[timedFields[part]];
    if (time === null) return [];
    return fill(language, words.parts[part], {
      seconds: time.seconds,
      from: words.from[time.from],
    });
  });
  const used = record.materials.filter(({ stepKey }) => stepKey === step.key);
  const told = record.events.filter(({ stepKey }) => stepKey === step.key);
  const lines = [
    step.done ? "" : step.leftOut ? words.leftOut : words.notDone,
    step.usesMaterial && used.length === 0 && !step.leftOut ? words.noMaterial : "",
    ...used.map((material) => sayMaterial(language, material)),
    planned.length === 0 ? "" : fill(language, words.planned, { parts: planned.join(", ") }),
    ...told
      .filter(({ kind }) => ["cure", "thickness", "deviation"].includes(kind))
      .map((event) => {
        const { title, details } = sayEvent(language, event, "");
        return [title, ...details].join(" · ");
      }),
  ];
  paper.item(
    `${index + 1}. ${step.name}`,
    lines.filter((line) => line !== ""),
  );
}

function sayMaterial(language: Language, material: RecordView["materials"][number]): string {
  const { record: words } = getPaper(language);
  const { productName: product, lot, useBy, containerCode, notScannedReason } = material;
  if (lot === null) {
    return fill(language, words.notScanned, { product, reason: notScannedReason ?? "" });
  }
  return fill(language, words.material, {
    product,
    lot,
    ...(useBy === null ? {} : { useBy }),
    ...(containerCode === null ? {} : { code: showContainerCode(containerCode) }),
  });
}

function writeCheck(paper: Paper, told: RecordOnPaper): void {
  const { record, language } = told;
  const { record: words } = getPaper(language);
  const { verdict, findings } = record.startCheck;
  paper.text(sayVerdict(language, verdict));
  if (findings.length === 0) paper.text(words.noFindings);
  writeFindings(paper, told, findings);
  if (record.passed.length === 0) return;
  paper.heading(words.passedLater);
  writeFindings(paper, told, record.passed);
}

function writeFindings(
  paper: Paper,
  { language, timeZone }: RecordOnPaper,
  findings: readonly FindingView[],
): void {
  const { levels } = getMessages(language);
  for (const finding of findings) {
    const { title, sentence } = sayFinding(language, finding);
    const passed = sayPassed(finding, { language, timeZone });
    paper.item(
      `${levels[finding.level]}: ${title}`,
      passed === "" ? [sentence] : [sentence, passed],
    );
  }
}

function sayPassed(
  { overridden }: FindingView,
  { language, timeZone }: Pick<RecordOnPaper, "language" | "timeZone">,
): string {
  if (overridden === null) return "";
  const { by: person, at, reason } = overridden;
  const when = makeTimeFormats(language, timeZone).dateTime(at);
  return fill(language, getPaper(language).record.passed, { person, when, reason });
}

// Told so much later than it happened is marked as late.
const lateMs = 60_000;

function writeEvent(
  paper: Paper,
  { record, language, timeZone }: RecordOnPaper,
  event: RecordView["events"][number],
): void {
  const { record: words } = getPaper(language);
  const { time, dateTime } = makeTimeFormats(language, timeZone);
  const step = record.technique.steps.find(({ key }) => key === event.stepKey)?.name ?? "";
  const { title, details } = sayEvent(language, event, step);
  const isLate = Date.parse(event.recordedAt) - Date.parse(event.occurredAt) > lateMs;
  const late = isLate ? [fill(language, words.late, { when: dateTime(event.recordedAt) })] : [];
  const dayOf = (at: string): string => civilDateAt(at, timeZone);
  const isOtherDay = dayOf(event.occurredAt) !== dayOf(record.startedAt);
  const when = isOtherDay ? dateTime(event.occurredAt) : time(event.occurredAt);
  paper.small([when, title, ...details, event.person, ...late].join(" · "));
}

function writeCautions(paper: Paper, language: Language): void {
  const { aid, figures } = getMessages(language).cautions;
  paper.heading("");
  paper.small(`${aid} ${figures}`);
}

const a6 = { width: 105, height: 148 };

/** A small card for the patient: tooth, day and materials with their lots, and nothing else. */
export async function writeCard(told: RecordOnPaper & { day: string }): Promise<SentFile> {
  const { record, practice, language, at, day } = told;
  const { card } = getPaper(language).record;
  const bytes = await writePaper(
    { size: a6, title: card.title, language, at, foot: null },
    (paper) => {
      paper.title(card.title);
      const name = nameTooth(record.tooth, language);
      paper.text(fill(language, card.tooth, { tooth: record.tooth, name }));
      paper.text(`${fill(language, card.day, { day })} · ${practice}`);
      if (record.state === "draft") paper.mark(card.draft);
      for (const { productName, lot } of uniqueMaterials(record)) {
        const which = lot === null ? card.lotUnknown : fill(language, card.lot, { lot });
        paper.item(productName, [which]);
      }
      paper.small(card.keep);
      paper.small(card.caution);
    },
  );
  return { media: "application/pdf", name: `materials-${record.id}.pdf`, bytes };
}

/** What was used at several steps stands on a card once. */
const uniqueMaterials = ({ materials }: RecordView): RecordView["materials"] => [
  ...new Map(materials.map((one) => [`${one.productName}\n${one.lot ?? ""}`, one])).values(),
];
