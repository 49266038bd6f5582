import { useState, type ReactNode } from "react";
import { showContainerCode } from "#domain";
import { sayEvent } from "#texts";
import type { AnswerOf } from "#contracts/operations";
import { useRead } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { LinkButton } from "../ui/Button.tsx";
import { Select } from "../ui/Field.tsx";
import { Page } from "../ui/Page.tsx";
import { QueryView } from "../ui/States.tsx";
import { compareVersions, type Compared, type ComparedVersion } from "./compare-versions.ts";
import "./records.css";
import "./versions.css";
import { showTooth } from "../texts/tooth-notation.ts";

type RecordView = AnswerOf<"getRecord">;

/** Two versions of a record side by side, what differs marked by word and mark. */
export default function ComparePage({ recordId }: { recordId: string }): ReactNode {
  const query = useRead("getRecord", { params: { recordId } });
  return <QueryView query={query}>{(record) => <Compare record={record} />}</QueryView>;
}

function Compare({ record }: { record: RecordView }): ReactNode {
  const { amend: t } = useTexts();
  const { versions, tooth, chartNumber } = record;
  const [older, chooseOlder] = useState(versions.at(-2)?.id ?? record.id);
  const [newer, chooseNewer] = useState(versions.at(-1)?.id ?? record.id);
  const left = useRead("getRecord", { params: { recordId: older } });
  const right = useRead("getRecord", { params: { recordId: newer } });
  const options = versions.map(({ id, version }) => (
    <option key={id} value={id}>
      {t.versionLine(version)}
    </option>
  ));
  return (
    <Page
      className="compare"
      title={t.compareTitle(showTooth(tooth), chartNumber)}
      actions={<LinkButton to={paths.record(newer)}>{t.newest}</LinkButton>}
    >
      {versions.length < 2 ? <p>{t.onlyOne}</p> : null}
      <div className="beside">
        <Select label={t.older} value={older} onChange={({ target }) => chooseOlder(target.value)}>
          {options}
        </Select>
        <Select label={t.newer} value={newer} onChange={({ target }) => chooseNewer(target.value)}>
          {options}
        </Select>
      </div>
      <QueryView query={left}>
        {(one) => (
          <QueryView query={right}>{(other) => <Columns older={one} newer={other} />}</QueryView>
        )}
      </QueryView>
    </Page>
  );
}

function Columns({ older, newer }: { older: RecordView; newer: RecordView }): ReactNode {
  const { amend: t } = useTexts();
  const [left, right] = compareVersions(older, newer);
  const count = ({ events, materials, seals }: ComparedVersion): number =>
    [...events, ...materials, ...seals].filter(({ isShared }) => !isShared).length;
  return (
    <>
      <p role="status">{t.changes(count(right), count(left))}</p>
      <div className="version-columns">
        <Version record={older} compared={left} difference="left" />
        <Version record={newer} compared={right} difference="added" />
      </div>
    </>
  );
}

interface VersionProps {
  record: RecordView;
  compared: ComparedVersion;
  /** What it means that a line stands in this version alone. */
  difference: "added" | "left";
}

function Version({ record, compared, difference }: VersionProps): ReactNode {
  const t = useTexts();
  const { language, dateTime, date, civilDate } = useFormats();
  const { linked } = t.waiting;
  const { record: texts } = t.records;
  const names = new Map(record.technique.steps.map(({ key, name }) => [key, name]));
  const nameOf = (key: string | null): string => (key === null ? "" : (names.get(key) ?? key));
  const { amends, amendReason, signed, version } = record;
  return (
    <section className="panel" aria-label={t.amend.versionLine(version)}>
      <h2>{t.amend.versionLine(version)}</h2>
      <p className="hint">
        {amends === null ? t.amend.first : `${t.amend.amends[amends]}: ${amendReason ?? ""}`}
        {signed === null ? "" : ` · ${texts.signedBy(signed.by, dateTime(signed.at))}`}
      </p>
      {compared.seals.length === 0 ? null : <h3>{linked.title}</h3>}
      <ul className="version-lines">
        {compared.seals.map((one) => {
          const { line: seal } = one;
          const said = seal && linked.seal(date(civilDate(seal.signedAt)), seal.days);
          return (
            <Line key={seal?.id ?? ""} {...{ one, difference, words: [said ?? linked.noSeal] }} />
          );
        })}
      </ul>
      <h3>{t.amend.wrongMaterials}</h3>
      <ul className="version-lines">
        {compared.materials.map((one) => {
          const { id, productName, lot, containerCode, notScannedReason, stepKey } = one.line;
          const words = [
            `${nameOf(stepKey)}: ${productName}`,
            lot === null ? texts.notScanned(notScannedReason ?? "") : texts.lot(lot),
            containerCode === null ? "" : showContainerCode(containerCode),
          ];
          return <Line key={id} {...{ one, difference, words }} />;
        })}
      </ul>
      <h3>{texts.timeline}</h3>
      <ul className="version-lines">
        {compared.events.map((one) => {
          const { title, details } = sayEvent(language, one.line, nameOf(one.line.stepKey));
          const words = [dateTime(one.line.occurredAt), title, ...details, one.line.person];
          return <Line key={one.line.sequence} {...{ one, difference, words }} />;
        })}
      </ul>
    </section>
  );
}

interface LineProps extends Pick<VersionProps, "difference"> {
  one: Compared<unknown>;
  words: readonly string[];
}

function Line({ one, difference, words }: LineProps): ReactNode {
  const { amend: t } = useTexts();
  return (
    <li className={one.isShared ? undefined : difference}>
      {one.isShared ? null : <strong className="version-mark">{t[difference]}</strong>}{" "}
      {words.filter((word) => word !== "").join(" · ")}
    </li>
  );
}
