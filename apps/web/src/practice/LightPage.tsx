import { useState, type ReactNode } from "react";
import { formatNumber } from "#texts";
import { useRead } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button, LinkButton } from "../ui/Button.tsx";
import { Page } from "../ui/Page.tsx";
import { QueryView } from "../ui/States.tsx";
import { Table, type Column } from "../ui/Table.tsx";
import { LightChart } from "./LightChart.tsx";
import { LightDialog } from "./LightDialog.tsx";
import { LightMark, useLossWords, type Light } from "./LightMark.tsx";
import { ReadingDialog } from "./ReadingDialog.tsx";
import "./lights.css";

/** One curing light: how it stands, what it gave over time, and at which distance what it gives. */
export default function LightPage({ lightId }: { lightId: string }): ReactNode {
  const query = useRead("getLight", { params: { lightId } });
  return <QueryView query={query}>{(found) => <LightView light={found} />}</QueryView>;
}

function LightView({ light }: { light: Light }): ReactNode {
  const { lights: t } = useTexts().keeping;
  const { language } = useFormats();
  const settings = useRead("getCheckSettings", {}, { staleMs: 300_000 });
  const [asks, ask] = useState<"read" | "change" | null>(null);
  const { name, location, serial, tipTenthMm, retired } = light;
  const tip = tipTenthMm === null ? "" : t.tipOf(formatNumber(language, tipTenthMm / 10));
  return (
    <Page
      title={name}
      lead={[location?.name ?? "", serial, tip].filter((word) => word !== "").join(" · ")}
      actions={
        <>
          <LinkButton to={paths.practicePart("lights")}>{t.all}</LinkButton>
          <Button onClick={() => ask("change")}>{t.change}</Button>
          {retired ? null : (
            <Button kind="main" onClick={() => ask("read")}>
              {t.read}
            </Button>
          )}
        </>
      }
    >
      <LightStanding light={light} />
      {light.modes.map((mode) => (
        <ModePanel key={mode.name} {...{ light, mode, floor: settings.data?.lightFloorMwCm2 }} />
      ))}
      {light.readings.length === 0 ? null : (
        <section className="panel">
          <h2>{t.readings}</h2>
          <ReadingTable light={light} />
        </section>
      )}
      {asks === "read" ? <ReadingDialog light={light} onClose={() => ask(null)} /> : null}
      {asks === "change" ? <LightDialog light={light} onClose={() => ask(null)} /> : null}
    </Page>
  );
}

function LightStanding({ light }: { light: Light }): ReactNode {
  const { lights: t } = useTexts().keeping;
  const { shortDate } = useFormats();
  const lossWords = useLossWords();
  const { readOn, dueOn } = light;
  const words = [
    readOn === null ? "" : t.readOn(shortDate(readOn)),
    dueOn === null ? "" : t.dueOn(shortDate(dueOn)),
    lossWords(light),
  ].filter((word) => word !== "");
  return (
    <div className="light-standing">
      <LightMark light={light} />
      <span className="hint">{words.join(" · ")}</span>
    </div>
  );
}

interface ModePanelProps {
  light: Light;
  mode: Light["modes"][number];
  /** Of the practice; unknown until it is fetched. */
  floor: number | undefined;
}

/** A mode: the course of its output, its readings at the tip as a picture, and by distance. */
function ModePanel({ light, mode, floor }: ModePanelProps): ReactNode {
  const { lights: t } = useTexts().keeping;
  const { language } = useFormats();
  const number = (value: number): string => formatNumber(language, value);
  const phases = mode.phases.map(({ seconds, fromPercent: from, toPercent: to }) =>
    from === to
      ? t.evenPhase(number(seconds), number(from))
      : t.phase(number(seconds), number(from), number(to)),
  );
  const atTip = light.readings.filter(
    (one) => !one.replaced && one.distanceTenthMm === 0 && one.mode === mode.name,
  );
  return (
    <section className="panel" aria-label={mode.name}>
      <h2>{mode.name}</h2>
      {phases.length === 0 ? null : <p className="hint">{t.phases(phases.join(", "))}</p>}
      {mode.table.length === 0 ? (
        <p>{t.noReading}</p>
      ) : (
        <div className="light-sides">
          <LightChart
            title={t.chart}
            floor={floor}
            readings={atTip.map((one) => ({
              atMs: Date.parse(one.readAt),
              value: one.irradianceMwCm2,
            }))}
          />
          <DistanceTable mode={mode} />
        </div>
      )}
    </section>
  );
}

function DistanceTable({ mode }: { mode: Light["modes"][number] }): ReactNode {
  const { lights: t } = useTexts().keeping;
  const { language, dateTime } = useFormats();
  const number = (value: number): string => formatNumber(language, value);
  return (
    <div>
      <h3>{t.table}</h3>
      <Table
        caption={`${t.table}, ${mode.name}`}
        rows={mode.table}
        rowKey={({ distanceTenthMm }) => String(distanceTenthMm)}
        columns={[
          {
            key: "distance",
            label: t.distance,
            show: ({ distanceTenthMm }) => t.millimetres(number(distanceTenthMm / 10)),
          },
          {
            key: "irradiance",
            label: t.irradiance,
            show: ({ irradianceMwCm2 }) => t.output(number(irradianceMwCm2)),
          },
          { key: "read", label: t.readAt, show: ({ readAt }) => dateTime(readAt) },
        ]}
      />
    </div>
  );
}

type Reading = Light["readings"][number];

/** Every reading, the latest first: what the pictures show, and what was replaced. */
function ReadingTable({ light }: { light: Light }): ReactNode {
  const { lights: t } = useTexts().keeping;
  const { language, dateTime } = useFormats();
  const number = (value: number): string => formatNumber(language, value);
  const of = (key: string, label: string, value: (one: Reading) => string) => ({
    key,
    label,
    value,
    show: value as (one: Reading) => ReactNode,
  });
  const columns: readonly Column<Reading>[] = [
    {
      ...of("read", t.readAt, ({ readAt }) => readAt),
      show: ({ readAt }) => dateTime(readAt),
    },
    of("mode", t.mode, ({ mode }) => mode),
    {
      ...of("distance", t.distanceMm, ({ distanceTenthMm }) => String(distanceTenthMm / 10)),
      show: ({ distanceTenthMm }) => number(distanceTenthMm / 10),
    },
    {
      ...of("irradiance", t.irradiance, ({ irradianceMwCm2 }) => String(irradianceMwCm2)),
      show: ({ irradianceMwCm2, replaced }) => {
        const said = t.output(number(irradianceMwCm2));
        return replaced ? <s>{said}</s> : said;
      },
    },
    of("counts", t.counts, ({ replaced }) => (replaced ? t.countsNo : t.countsYes)),
    of("radiometer", t.radiometer, ({ radiometer }) => radiometer),
    of("note", t.note, ({ note }) => note),
    of("by", t.by, ({ person }) => person),
  ];
  return (
    <Table
      caption={t.readings}
      rows={light.readings.toReversed()}
      rowKey={({ id }) => id}
      exportName="light-readings"
      columns={columns}
    />
  );
}
