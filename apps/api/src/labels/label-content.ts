import { showOwnCode, type LabelTexts } from "#domain";
import type { LabelContent, LabelSubject } from "#contracts/label-printing";
import { fill, getPaper, type Language } from "#texts";
import type { Tx } from "../db/transaction.ts";
import { noSymbol, symbolOfCode } from "../drawing/symbols.ts";
import { containerView, type ContainerRow } from "../stock/container-row.ts";
import * as store from "./labels.store.ts";

/** What each label of a run says now, in the order of the run. */
export async function readContents(tx: Tx, runId: string): Promise<LabelContent[]> {
  return contentsOf(tx, await store.listSubjects(tx, runId));
}

/** What the label of each thing says now, in their order; a place or tray may have no code yet. */
export async function contentsOf(
  tx: Tx,
  subjects: readonly LabelSubject[],
): Promise<LabelContent[]> {
  const idsOf = (kind: LabelSubject["kind"]) =>
    subjects.filter((each) => each.kind === kind).map(({ id }) => id);
  const { language } = tx.actor;
  const contents = [
    ...(await store.listLabelledContainers(tx, idsOf("container"))).map(ofContainer),
    ...(await store.listLabelledPlaces(tx, idsOf("location"))).map(ofPlace),
    ...(await store.listLabelledTrays(tx, idsOf("tray"))).map((row) => ofTray(row, language)),
  ];
  const byId = new Map(contents.map((content) => [content.subject.id, content]));
  return subjects.flatMap(({ id }) => byId.get(id) ?? []);
}

const nothing = { lot: null, useBy: null, openedOn: null, useUntil: null, line: "" };

function ofContainer(row: ContainerRow): LabelContent {
  const { id, code, product, lot, useBy, openedOn, endsOn } = containerView(row);
  return {
    ...nothing,
    subject: { kind: "container", id },
    code,
    title: product.name,
    lot,
    useBy,
    openedOn,
    useUntil: openedOn === null ? null : (endsOn?.date ?? null),
  };
}

const ofPlace = ({ id, code, name }: store.LabelledPlace): LabelContent => ({
  ...nothing,
  subject: { kind: "location", id },
  code,
  title: name,
});

function ofTray(row: store.LabelledTray, language: Language): LabelContent {
  const tooth = fill(language, getPaper(language).tooth, { tooth: row.tooth });
  return {
    ...nothing,
    subject: { kind: "tray", id: row.id },
    code: row.code,
    title: `${row.chart_number}, ${tooth}`,
    line: `${row.starts}, ${row.place}`,
  };
}

/** The content as it is drawn; dates as in ISO 8601, a month alone where the label has no day. */
export async function textsOf(content: LabelContent, language: Language): Promise<LabelTexts> {
  const words = getPaper(language);
  const { useBy, lot } = content;
  const isContainer = content.subject.kind === "container";
  return {
    symbol: content.code === "" ? noSymbol : await symbolOfCode(content.code),
    code: content.code === "" ? "…" : showOwnCode(content.code),
    title: printable(content.title),
    lot: lot === null ? null : { word: words.lot, value: printable(lot) },
    useBy: useBy && {
      word: words.useBy,
      value: useBy.precision === "month" ? useBy.date.slice(0, 7) : useBy.date,
    },
    dates: isContainer
      ? [
          { word: words.opened, value: content.openedOn ?? "" },
          { word: words.useUntil, value: content.useUntil ?? "" },
        ]
      : [],
    line: printable(content.line),
  };
}

/** A line break or another control character becomes the space that it would look like. */
const printable = (text: string): string =>
  text
    .normalize("NFC")
    .replace(/\p{Cc}+/gu, " ")
    .trim();
