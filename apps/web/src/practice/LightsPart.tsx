import { useState, type ReactNode } from "react";
import { formatNumber } from "#texts";
import type { AnswerOf } from "#contracts/operations";
import { useRead } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { EmptyState, QueryView } from "../ui/States.tsx";
import { Table } from "../ui/Table.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import { LightChart } from "./LightChart.tsx";
import { LightDialog } from "./LightDialog.tsx";
import { ReadingDialog } from "./ReadingDialog.tsx";
import "./lights.css";

export type Light = AnswerOf<"listLights">["lights"][number];
type Asked = { kind: "add" } | { kind: "change" | "read"; light: Light };

const shapes = { good: "clear", due: "caution", unread: "caution", weak: "stop" } as const;

/** The curing lights, each with its readings and what has become of it. */
export function LightsPart(): ReactNode {
  const { lights: t } = useTexts().keeping;
  const query = useRead("listLights");
  const settings = useRead("getCheckSettings", {}, { staleMs: 300_000 });
  const [asks, ask] = useState<Asked | null>(null);
  return (
    <>
      <p className="lead">{t.lead}</p>
      <div className="actions">
        <Button kind="main" onClick={() => ask({ kind: "add" })}>
          {t.add}
        </Button>
      </div>
      <QueryView query={query}>
        {({ lights }) =>
          lights.length === 0 ? (
            <EmptyState text={t.none} />
          ) : (
            [...lights]
              .sort((a, b) => Number(a.retired) - Number(b.retired))
              .map((light) => (
                <LightPanel
                  key={light.id}
                  light={light}
                  floor={settings.data?.lightFloorMwCm2 ?? 0}
                  onAsk={(kind) => ask({ kind, light })}
                />
              ))
          )
        }
      </QueryView>
      {asks === null ? null : asks.kind === "read" ? (
        <ReadingDialog light={asks.light} onClose={() => ask(null)} />
      ) : (
        <LightDialog light={asks.kind === "change" ? asks.light : null} onClose={() => ask(null)} />
      )}
    </>
  );
}

interface LightPanelProps {
  light: Light;
  floor: number;
  onAsk: (kind: "change" | "read") => void;
}

function LightPanel({ light, floor, onAsk }: LightPanelProps): ReactNode {
  const { lights: t } = useTexts().keeping;
  const [mode] = light.modes;
  const atTip = light.readings.filter(
    (one) => !one.replaced && one.distanceTenthMm === 0 && one.mode === mode?.name,
  );
  return (
    <section className="panel" aria-label={light.name}>
      <div className="panel-head">
        <div>
          <h2>{light.name}</h2>
          <LightStanding light={light} />
        </div>
        <div className="actions">
          {light.retired ? null : <Button onClick={() => onAsk("read")}>{t.read}</Button>}
          <Button onClick={() => onAsk("change")}>{t.change}</Button>
        </div>
      </div>
      <div className="light-sides">
        <LightChart
          title={t.chart(mode?.name ?? "")}
          floor={floor}
          readings={atTip.map((one) => ({
            atMs: Date.parse(one.readAt),
            value: one.irradianceMwCm2,
          }))}
        />
        <div>
          {light.modes.map((one) => (
            <DistanceTable key={one.name} mode={one} />
          ))}
        </div>
      </div>
      {light.readings.length === 0 ? null : (
        <details>
          <summary className="link">{t.readings}</summary>
          <ReadingTable light={light} />
        </details>
      )}
    </section>
  );
}

function LightStanding({ light }: { light: Light }): ReactNode {
  const { lights: t } = useTexts().keeping;
  const { language, shortDate } = useFormats();
  const { state, readOn, dueOn, lossPercent, location, serial, retired } = light;
  const percent = (value: number): string => formatNumber(language, Math.abs(value));
  const words = [
    location?.name ?? "",
    serial,
    readOn === null ? "" : t.readOn(shortDate(readOn)),
    dueOn === null ? "" : t.dueOn(shortDate(dueOn)),
    lossPercent === null || lossPercent === 0
      ? ""
      : lossPercent > 0
        ? t.loss(percent(lossPercent))
        : t.gain(percent(lossPercent)),
  ].filter((word) => word !== "");
  return (
    <>
      <p className={`light-state ${state}`}>
        {retired ? null : <VerdictShape verdict={shapes[state]} />}
        <strong>{retired ? t.retiredMark : t.states[state]}</strong>
      </p>
      <p className="hint">{words.join(" · ")}</p>
    </>
  );
}

function DistanceTable({ mode }: { mode: Light["modes"][number] }): ReactNode {
  const { lights: t } = useTexts().keeping;
  const { language, dateTime } = useFormats();
  const number = (value: number): string => formatNumber(language, value);
  const phases = mode.phases.map(({ seconds, fromPercent, toPercent }) =>
    t.phase(number(seconds), number(fromPercent), number(toPercent)),
  );
  return (
    <>
      <h3>{t.table(mode.name)}</h3>
      {phases.length === 0 ? null : <p className="hint">{t.phases(phases.join(", "))}</p>}
      <Table
        caption={t.table(mode.name)}
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
    </>
  );
}

function ReadingTable({ light }: { light: Light }): ReactNode {
  const { lights: t } = useTexts().keeping;
  const { language, dateTime } = useFormats();
  const number = (value: number): string => formatNumber(language, value);
  return (
    <Table
      caption={t.readings}
      rows={light.readings.toReversed()}
      rowKey={({ id }) => id}
      exportName="light-readings"
      columns={[
        {
          key: "read",
          label: t.readAt,
          value: ({ readAt }) => readAt,
          show: ({ readAt }) => dateTime(readAt),
        },
        { key: "mode", label: t.mode, value: ({ mode }) => mode, show: ({ mode }) => mode },
        {
          key: "distance",
          label: t.distance,
          value: ({ distanceTenthMm }) => String(distanceTenthMm / 10),
          show: ({ distanceTenthMm }) => t.millimetres(number(distanceTenthMm / 10)),
        },
        {
          key: "irradiance",
          label: t.irradiance,
          value: ({ irradianceMwCm2 }) => String(irradianceMwCm2),
          show: ({ irradianceMwCm2, replaced }) =>
            replaced ? (
              <>
                <s>{t.output(number(irradianceMwCm2))}</s> {t.replaced}
              </>
            ) : (
              t.output(number(irradianceMwCm2))
            ),
        },
        {
          key: "radiometer",
          label: t.radiometer,
          value: ({ radiometer }) => radiometer,
          show: ({ radiometer, note }) =>
            [radiometer, note].filter((word) => word !== "").join(" · "),
        },
        { key: "by", label: t.by, value: ({ person }) => person, show: ({ person }) => person },
      ]}
    />
  );
}
