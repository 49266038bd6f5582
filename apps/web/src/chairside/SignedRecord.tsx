import type { ReactNode } from "react";
import { paths } from "../paths.ts";
import { Cautions } from "../shell/About.tsx";
import { useRecordEvents } from "../records/useRecordEvents.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { LinkButton } from "../ui/Button.tsx";
import { Page } from "../ui/Page.tsx";
import { Timeline } from "../ui/Timeline.tsx";
import type { RecordView } from "./steps.ts";
import { showTooth } from "../texts/tooth-notation.ts";

/** What was signed, with the seal that any change would break. */
export function SignedRecord({ record, tabs }: { record: RecordView; tabs: ReactNode }): ReactNode {
  const t = useTexts();
  const { dateTime } = useFormats();
  const events = useRecordEvents(record);
  const { signed, tooth, chartNumber, technique, version } = record;
  return (
    <Page
      className="chair"
      title={t.chairside.tooth(showTooth(tooth))}
      lead={`${technique.name} · ${t.common.chart(chartNumber)} · ${t.chairside.version(version)}`}
      actions={
        <>
          <LinkButton to={paths.tray(record.trayId)}>{t.tray.clear}</LinkButton>
          <LinkButton to={paths.record(record.id)}>{t.chairside.toRecord}</LinkButton>
          <LinkButton to={paths.today()} kind="main">
            {t.shell.toToday}
          </LinkButton>
        </>
      }
    >
      {tabs}
      {signed === null ? null : (
        <section className="seal">
          <p className="seal-word">{t.chairside.signed}</p>
          <p>{t.chairside.signedBy(signed.by, dateTime(signed.at))}</p>
          <p>{t.chairside.meaning}</p>
          <p className="hint">{t.chairside.hash}</p>
          <p className="code seal-hash">{signed.hash}</p>
        </section>
      )}
      <Timeline label={t.chairside.timeline} events={events} />
      <Cautions />
    </Page>
  );
}
