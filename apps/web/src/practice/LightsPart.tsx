import { useState, type ReactNode } from "react";
import { Link } from "wouter";
import { formatNumber } from "#texts";
import { useRead } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { Select } from "../ui/Field.tsx";
import { EmptyState, QueryView } from "../ui/States.tsx";
import { Table, type Column } from "../ui/Table.tsx";
import { useFilter } from "../ui/useFilter.ts";
import { LightDialog } from "./LightDialog.tsx";
import { LightMark, useLossWords, type Light } from "./LightMark.tsx";
import "./lights.css";

const standings = ["good", "due", "weak", "unread", "retired"] as const;
const standingOf = ({ retired, state }: Light) => (retired ? "retired" : state);

/** The curing lights and how each stands; the filter is in the address. */
export function LightsPart(): ReactNode {
  const { keeping, states } = useTexts();
  const { lights: t } = keeping;
  const query = useRead("listLights");
  const filter = useFilter();
  const standing = filter.get("state");
  const [adds, add] = useState(false);
  return (
    <>
      <p className="lead">{t.lead}</p>
      <search className="sieve">
        <Select
          label={t.standing}
          value={standing}
          onChange={({ target }) => filter.set({ state: target.value })}
        >
          <option value="">{t.anyStanding}</option>
          {standings.map((one) => (
            <option key={one} value={one}>
              {one === "retired" ? t.retiredMark : t.states[one]}
            </option>
          ))}
        </Select>
        <Button kind="main" onClick={() => add(true)}>
          {t.add}
        </Button>
      </search>
      <QueryView query={query}>
        {({ lights }) => {
          const shown = lights.filter((one) => standing === "" || standingOf(one) === standing);
          if (shown.length > 0) return <LightTable lights={shown} />;
          return <EmptyState text={lights.length === 0 ? t.none : states.noMatch} />;
        }}
      </QueryView>
      {adds ? <LightDialog light={null} onClose={() => add(false)} /> : null}
    </>
  );
}

const atTip = ({ modes }: Light) =>
  modes[0]?.table.find(({ distanceTenthMm }) => distanceTenthMm === 0)?.irradianceMwCm2 ?? null;

function LightTable({ lights }: { lights: readonly Light[] }): ReactNode {
  const { keeping, practice } = useTexts();
  const { lights: t } = keeping;
  const { language, shortDate } = useFormats();
  const lossWords = useLossWords();
  const dateOf = (date: string | null): string => (date === null ? "" : shortDate(date));
  const columns: readonly Column<Light>[] = [
    {
      key: "name",
      label: t.name,
      value: ({ name }) => name,
      show: ({ id, name }) => (
        <Link to={paths.light(id)} className="name-link">
          {name}
        </Link>
      ),
    },
    {
      key: "room",
      label: t.room,
      value: ({ location }) => location?.name ?? "",
      show: ({ location }) => location?.name ?? t.noRoom,
    },
    {
      key: "state",
      label: t.standing,
      value: ({ state, retired }) => (retired ? t.retiredMark : t.states[state]),
      show: (light) => <LightMark light={light} />,
    },
    { key: "due", label: t.due, value: ({ dueOn }) => dueOn, show: ({ dueOn }) => dateOf(dueOn) },
    {
      key: "tip",
      label: t.atTip,
      value: atTip,
      show: (light) => {
        const value = atTip(light);
        return value === null ? "" : t.output(formatNumber(language, value));
      },
    },
    {
      key: "loss",
      label: t.sinceFirst,
      value: ({ lossPercent }) => lossPercent,
      show: (light) => lossWords(light),
    },
  ];
  return (
    <Table
      caption={practice.parts.lights}
      columns={columns}
      rows={lights}
      rowKey={({ id }) => id}
      exportName="curing-lights"
    />
  );
}
