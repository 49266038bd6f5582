/** The sheet for downtime: a page for each visit with boxes to write in, then blank ones. */
import { appliesTo, showContainerCode, type TechniqueStep } from "#domain";
import type { TrayView } from "#contracts/trays";
import { fill, getMessages, getPaper, makeTimeFormats, type Language } from "#texts";
import { writePaper, type Box, type Paper } from "../drawing/write-paper.ts";

export interface SheetTold {
  trays: readonly { view: TrayView; steps: readonly TechniqueStep[] }[];
  on: string;
  blanks: number;
  language: Language;
  timeZone: string;
  at: Date;
}

type Words = ReturnType<typeof getPaper>["downtime"];

const a4 = { width: 210, height: 297 };
const blankSteps = 9;
const deviationsMm = 16;
const stepMm = 26;

export function writeSheet(told: SheetTold): Promise<Uint8Array> {
  const { language, timeZone, at } = told;
  const { downtime: words, record } = getPaper(language);
  const title = fill(language, words.title, { day: told.on });
  const { dateTime } = makeTimeFormats(language, timeZone);
  const printed = fill(language, words.printed, { when: dateTime(at.toISOString()) });
  const foot = (page: number, pages: number): string =>
    `${printed} · ${fill(language, record.page, { page, pages })}`;
  return writePaper({ size: a4, title, language, at, foot }, (paper) => {
    const pages = [
      ...told.trays.map((tray) => () => writeVisit(paper, tray, told)),
      // Never an empty document.
      ...Array.from(
        { length: Math.max(told.blanks, told.trays.length === 0 ? 1 : 0) },
        () => () => writeBlank(paper, words),
      ),
    ];
    for (const [index, write] of pages.entries()) {
      if (index > 0) paper.page();
      paper.title(title);
      paper.small(words.lead);
      write();
      writeEnd(paper, language);
    }
  });
}

function writeVisit(
  paper: Paper,
  { view, steps }: SheetTold["trays"][number],
  { language, timeZone }: SheetTold,
): void {
  const { downtime: words } = getPaper(language);
  const { time } = makeTimeFormats(language, timeZone);
  paper.field(words.chart, view.chartNumber);
  paper.field(words.teeth, view.teeth.map((tooth) => nameTooth(tooth, language)).join("; "));
  paper.field(words.technique, view.technique.name);
  paper.field(words.planned, `${time(view.appointmentAt)}, ${view.location.name}`);
  paper.boxes(headBoxes(words).slice(3));
  for (const [index, step] of steps.entries()) {
    const set = view.items.filter(({ stepKeys }) => stepKeys.includes(step.key)).flatMap(nameSet);
    const teeth = view.teeth.filter((tooth) => appliesTo(step, tooth));
    const forSome = teeth.length < view.teeth.length;
    const whose = forSome ? ` · ${teeth.map(({ tooth }) => tooth).join(", ")}` : "";
    paper.keep(stepMm);
    paper.item(
      `${index + 1}. ${step.name}${whose}`,
      set.length === 0 ? [] : [`${words.set} ${set.join("; ")}`],
    );
    for (const row of stepBoxes(words, step)) paper.boxes(row);
  }
}

function writeBlank(paper: Paper, words: Words): void {
  paper.boxes(headBoxes(words));
  for (let place = 1; place <= blankSteps; place += 1) {
    paper.boxes([
      { label: `${place}. ${words.step}`, share: 30 },
      ...materialBoxes(words),
      ...timeBoxes(words),
    ]);
    paper.boxes([...lightBoxes(words), thicknessBox(words)]);
  }
}

const headBoxes = (words: Words): Box[] => [
  { label: words.chart, share: 20 },
  { label: words.teeth, share: 40 },
  { label: words.technique, share: 40 },
  { label: words.begun, share: 25 },
];
const materialBoxes = (words: Words): Box[] => [
  { label: words.code, share: 20 },
  { label: words.lot, share: 22 },
  { label: words.useBy, share: 18 },
];
const timeBoxes = (words: Words): Box[] => [
  { label: words.from, share: 13 },
  { label: words.to, share: 13 },
];
const lightBoxes = (words: Words): Box[] => [
  { label: words.light, share: 40 },
  { label: words.seconds, share: 20 },
  { label: words.distance, share: 20 },
];
const thicknessBox = (words: Words): Box => ({ label: words.thickness, share: 20 });

/** Only what the step can ask for: no lot where it takes no material, no light where none cures. */
function stepBoxes(words: Words, step: TechniqueStep): Box[][] {
  const usesLight = step.cureSeconds !== null;
  const first = [...(step.accepts.length > 0 ? materialBoxes(words) : []), ...timeBoxes(words)];
  const second = [
    ...(usesLight ? lightBoxes(words) : []),
    ...(step.thicknessTenthMm === null ? [] : [thicknessBox(words)]),
  ];
  return second.length === 0 ? [first] : [first, second];
}

function nameTooth({ tooth, surfaces, mode }: TrayView["teeth"][number], language: Language) {
  const { modes } = getPaper(language).record;
  return [tooth, surfaces, mode === null ? "" : modes[mode]]
    .filter((part) => part !== "")
    .join(" ");
}

const nameSet = ({ container }: TrayView["items"][number]): string[] =>
  container === null
    ? []
    : [`${container.product.name} ${showContainerCode(container.code)}, ${container.lot}`];

function writeEnd(paper: Paper, language: Language): void {
  const { downtime: words } = getPaper(language);
  paper.keep(deviationsMm + 20);
  paper.boxes([{ label: words.deviations, share: 1, heightMm: deviationsMm }]);
  paper.boxes([
    { label: words.dentist, share: 2 },
    { label: words.signature, share: 3 },
  ]);
  paper.small(getMessages(language).cautions.aid);
}
