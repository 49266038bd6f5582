import { useState, type ReactNode } from "react";
import {
  clockAt,
  settleAppointment,
  type AppointmentRow,
  type KnownForAppointments,
  type SettledAppointment,
} from "#domain";
import type { AnswerOf, BodyOf } from "#contracts/operations";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { getToothNotation, showTooth } from "../texts/tooth-notation.ts";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button, LinkButton } from "../ui/Button.tsx";
import { Select, TextField } from "../ui/Field.tsx";
import { ProblemNote } from "../ui/States.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import { judgeLines, spanOf, type GoodVisit, type Line } from "./import-lines.ts";
import type { Usual } from "./ImportPage.tsx";
import type { VisitChoices } from "./VisitForm.tsx";
import { modesOf, usualTooth } from "./visit-plan.ts";

type Result = AnswerOf<"planTrays">["results"][number];

interface ImportRowsProps {
  rows: readonly AppointmentRow[];
  choices: VisitChoices;
  usual: Usual;
  onChange: (rows: readonly AppointmentRow[]) => void;
}

/** The lines of a list, each with what it becomes or what is wrong; wrong ones are mended here. */
export function ImportRows({ rows, choices, usual, onChange }: ImportRowsProps): ReactNode {
  const { import: t } = useTexts();
  const { timeZone } = useFormats();
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [results, setResults] = useState<readonly (Result | undefined)[]>([]);
  const known: KnownForAppointments = {
    ...{ techniques: choices.techniques, rooms: choices.rooms, timeZone, usual },
    notation: getToothNotation(),
  };
  const settled = rows.map((row) => settleAppointment(row, known));
  const lines = judgeLines(settled, usePlanned(settled));
  const good = lines.flatMap((line, index) =>
    line.kind === "new" && results[index]?.trayId == null ? [{ one: line.visit, index }] : [],
  );
  const plan = useWrite("planTrays", ({ results: answers }) => {
    const next = [...results];
    for (const [place, { index }] of good.entries()) next[index] = answers[place];
    setResults(next);
    refresh("listTrays", "getToday", "listVisits");
    announce({ text: t.done(answers.filter(({ outcome }) => outcome === "planned").length) });
  });
  return (
    <>
      <ul className="import-rows">
        {rows.map((row, index) => (
          // Lines keep their places.
          <li key={`line ${index}`} aria-label={t.line(index + 1)}>
            <Outcome line={lines[index]!} result={results[index]} />
            {results[index]?.trayId == null ? (
              <RowFields
                {...{ row, choices, usual }}
                onChange={(next) => {
                  onChange(rows.with(index, next));
                  setResults(rows.map((_row, at) => (at === index ? undefined : results[at])));
                }}
              />
            ) : null}
          </li>
        ))}
      </ul>
      <ProblemNote error={plan.error} />
      {good.length === 0 ? null : (
        <Button
          kind="main"
          busy={plan.isPending}
          onClick={() =>
            plan.mutate({ body: { visits: good.map(({ one }) => bodyOf(one, choices)) } })
          }
        >
          {t.plan(good.length)}
        </Button>
      )}
    </>
  );
}

/** The visit of a line; each tooth is treated as is mildest where the technique asks for a mode. */
function bodyOf(settled: GoodVisit, { techniques }: VisitChoices): BodyOf<"planTray"> {
  const { ok: _ok, teeth, ...visit } = settled;
  const technique = techniques.find(({ id }) => id === visit.techniqueId);
  const mode = modesOf(technique)[0] ?? null;
  return { ...visit, teeth: teeth.map((tooth) => ({ ...usualTooth, tooth, mode })) };
}

/** What is planned already on the days of the list. */
function usePlanned(settled: readonly SettledAppointment[]) {
  const { timeZone } = useFormats();
  const span = spanOf(settled.flatMap((one) => (one.ok ? [one.appointmentAt] : [])));
  const query = {
    from: span === null ? "" : clockAt(span.first, timeZone).day,
    to: span === null ? "" : clockAt(span.last, timeZone).day,
  };
  const { data } = useRead("listVisits", { query }, { enabled: span !== null });
  return data?.visits ?? [];
}

interface OutcomeProps {
  line: Line;
  result: Result | undefined;
}

function Outcome({ line, result }: OutcomeProps): ReactNode {
  const { import: t } = useTexts();
  const say = useSayLine();
  const isRefused = result?.outcome === "refused";
  const trayId = result?.trayId ?? (line.kind === "planned" ? line.trayId : null);
  const isWrong = isRefused || (result === undefined && line.kind === "wrong");
  const isLeftOut = line.kind === "double" || line.kind === "planned";
  return (
    <p className={isWrong ? "import-outcome wrong" : "import-outcome"}>
      <VerdictShape
        verdict={isWrong ? "stop" : result === undefined && isLeftOut ? "caution" : "clear"}
      />
      <span>
        {result === undefined ? say(line) : `${t.outcomes[result.outcome]} ${result.detail}`}
      </span>
      {trayId === null ? null : <LinkButton to={paths.tray(trayId)}>{t.open}</LinkButton>}
    </p>
  );
}

function useSayLine(): (line: Line) => string {
  const { import: t } = useTexts();
  const { dateTime } = useFormats();
  return (line) => {
    if (line.kind === "wrong") return line.faults.map((fault) => t.faults[fault]).join("; ");
    if (line.kind === "double") return t.double(line.line);
    if (line.kind === "planned") return t.outcomes["already-planned"];
    const { teeth, appointmentAt } = line.visit;
    return t.becomes(teeth.map(showTooth).join(", "), dateTime(appointmentAt));
  };
}

interface RowFieldsProps {
  row: AppointmentRow;
  choices: VisitChoices;
  usual: Usual;
  onChange: (row: AppointmentRow) => void;
}

function RowFields({ row, choices, usual, onChange }: RowFieldsProps): ReactNode {
  const { import: t } = useTexts();
  const field = (name: "chart" | "teeth" | "day" | "time") => ({
    label: t[name],
    value: row[name],
    onChange: ({ target }: { target: { value: string } }) =>
      onChange({ ...row, [name]: target.value }),
  });
  return (
    <div className="import-fields">
      <TextField {...field("chart")} maxLength={40} />
      <TextField {...field("teeth")} />
      <TextField {...field("day")} placeholder={usual.day} />
      <TextField {...field("time")} />
      <NameSelect
        label={t.technique}
        value={row.technique}
        among={choices.techniques}
        usual={usual.techniqueId}
        onChange={(technique) => onChange({ ...row, technique })}
      />
      <NameSelect
        label={t.room}
        value={row.room}
        among={choices.rooms}
        usual={usual.locationId}
        onChange={(room) => onChange({ ...row, room })}
      />
    </div>
  );
}

interface NameSelectProps {
  label: string;
  value: string;
  among: readonly { id: string; name: string }[];
  usual: string;
  onChange: (name: string) => void;
}

/** A name of the list, also one that is not known: it stays seen until another is chosen. */
function NameSelect({ label, value, among, usual, onChange }: NameSelectProps): ReactNode {
  const { import: t } = useTexts();
  const isKnown = value === "" || among.some(({ name }) => name === value);
  const usualName = among.find(({ id }) => id === usual)?.name ?? "";
  return (
    <Select label={label} value={value} onChange={({ target }) => onChange(target.value)}>
      <option value="">{t.usual(usualName)}</option>
      {isKnown ? null : <option value={value}>{value}</option>}
      {among.map(({ id, name }) => (
        <option key={id} value={name}>
          {name}
        </option>
      ))}
    </Select>
  );
}
