import { useState, type FormEvent, type ReactNode } from "react";
import type { AnswerOf, BodyOf } from "#contracts/operations";
import { useRead } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { getToothNotation } from "../texts/tooth-notation.ts";
import { Button } from "../ui/Button.tsx";
import { Choice, Select, TextField } from "../ui/Field.tsx";
import { ProblemNote, QueryView } from "../ui/States.tsx";
import { TeethFields } from "./TeethFields.tsx";
import { ToothChart } from "./ToothChart.tsx";
import {
  applyTemplate,
  findFaults,
  listTyped,
  readVisit,
  toggleTooth,
  type Technique,
  type Template,
  type VisitFaults,
  type VisitPlan,
} from "./visit-plan.ts";
import "./trays.css";

type Room = AnswerOf<"listLocations">["locations"][number];
export interface VisitChoices {
  techniques: readonly Technique[];
  rooms: readonly Room[];
  templates: readonly Template[];
}

/** Fetches what a visit is chosen from. */
export function WithVisitChoices({
  children,
}: {
  children: (choices: VisitChoices) => ReactNode;
}): ReactNode {
  const techniques = useRead("listTechniques", {}, { staleMs: 300_000 });
  const locations = useRead("listLocations", {}, { staleMs: 300_000 });
  const templates = useRead("listTemplates", {}, { staleMs: 60_000 });
  return (
    <QueryView query={techniques}>
      {(found) => (
        <QueryView query={locations}>
          {(places) => (
            <QueryView query={templates}>
              {(known) =>
                children({
                  techniques: found.techniques,
                  rooms: places.locations.filter(({ kind }) => kind === "operatory"),
                  templates: known.templates,
                })
              }
            </QueryView>
          )}
        </QueryView>
      )}
    </QueryView>
  );
}

interface VisitFormProps {
  choices: VisitChoices;
  start: VisitPlan;
  /** The chart of a visit stays. */
  chartStays?: boolean;
  button: string;
  busy: boolean;
  error: unknown;
  onSave: (body: BodyOf<"planTray">) => void;
}

/** A visit: patient, time and room, technique, and its teeth with what is planned of each. */
export function VisitForm(props: VisitFormProps): ReactNode {
  const { choices, start, chartStays = false, button, busy, error, onSave } = props;
  const t = useTexts();
  const words = t.tray.plan;
  const { timeZone } = useFormats();
  const [plan, setPlan] = useState(start);
  const [tried, setTried] = useState(false);
  const change = (part: Partial<VisitPlan>) => setPlan((before) => ({ ...before, ...part }));
  const technique = choices.techniques.find(({ id }) => id === plan.techniqueId);
  const faults = findFaults(plan, timeZone);
  function submit(event: FormEvent): void {
    event.preventDefault();
    setTried(true);
    const body = readVisit(plan, technique, timeZone);
    if (body !== null) onSave(body);
  }
  return (
    <form className="plan" onSubmit={submit}>
      <div className="form">
        {chartStays ? null : (
          <TemplateSelect {...{ plan, setPlan }} templates={choices.templates} />
        )}
        <TextField
          label={words.chart}
          hint={words.chartHint}
          value={plan.chartNumber}
          maxLength={40}
          autoComplete="off"
          required
          disabled={chartStays}
          onChange={(event) => change({ chartNumber: event.target.value })}
        />
        <WhenAndWhere
          {...{ plan, change, rooms: choices.rooms }}
          error={tried && faults.time ? words.noSuchTime : undefined}
        />
        <TechniqueChoice
          techniques={choices.techniques}
          chosen={plan.techniqueId}
          onChoose={(techniqueId) => change({ techniqueId })}
        />
        {technique?.visit === "bonding" ? null : (
          <TextField
            label={words.bondingOn}
            hint={words.bondingOnHint}
            type="date"
            value={plan.bondingOn}
            onChange={(event) => change({ bondingOn: event.target.value })}
          />
        )}
        <ProblemNote error={error} />
        <Button kind="main" type="submit" busy={busy}>
          {button}
        </Button>
      </div>
      <TeethPart {...{ plan, technique, change, tried, faults }} />
    </form>
  );
}

interface TemplateSelectProps extends Pick<VisitChoices, "templates"> {
  plan: VisitPlan;
  setPlan: (change: (before: VisitPlan) => VisitPlan) => void;
}

/** What the practice sets out time and again; nothing where there is no template. */
function TemplateSelect({ plan, setPlan, templates }: TemplateSelectProps): ReactNode {
  const { templates: t } = useTexts();
  if (templates.length === 0) return null;
  return (
    <Select
      label={t.one}
      value={plan.templateId}
      onChange={({ target }) =>
        setPlan((before) =>
          applyTemplate(
            before,
            templates.find(({ id }) => id === target.value),
          ),
        )
      }
    >
      <option value="">{t.none}</option>
      {templates.map(({ id, name }) => (
        <option key={id} value={id}>
          {name}
        </option>
      ))}
    </Select>
  );
}

interface TeethPartProps {
  plan: VisitPlan;
  technique: Technique | undefined;
  change: (part: Partial<VisitPlan>) => void;
  tried: boolean;
  faults: VisitFaults;
}

function TeethPart({ plan, technique, change, tried, faults }: TeethPartProps): ReactNode {
  const t = useTexts();
  const words = t.tray.plan;
  const system = t.notations[getToothNotation()];
  const teethFault = { none: words.noTooth, unknown: words.noSuchTooth(system) };
  return (
    <div className="form">
      <TextField
        label={words.teeth}
        hint={words.teethHint(system)}
        error={tried && faults.teeth !== null ? teethFault[faults.teeth] : undefined}
        value={plan.teethText}
        autoComplete="off"
        required
        onChange={(event) => change({ teethText: event.target.value })}
      />
      <ToothChart
        chosen={listTyped(plan.teethText)}
        onToggle={(tooth) => change({ teethText: toggleTooth(plan.teethText, tooth) })}
      />
      {faults.teeth === null ? (
        <TeethFields
          {...{ plan, technique }}
          wrongSurfaces={faults.surfaces}
          onChange={(details) => change({ details })}
        />
      ) : null}
    </div>
  );
}

interface WhenAndWhereProps extends Pick<VisitChoices, "rooms"> {
  plan: VisitPlan;
  change: (part: Partial<VisitPlan>) => void;
  error: string | undefined;
}

function WhenAndWhere({ plan, change, rooms, error }: WhenAndWhereProps): ReactNode {
  const t = useTexts();
  return (
    <>
      <div className="pair">
        <TextField
          label={t.tray.plan.day}
          type="date"
          value={plan.day}
          required
          onChange={(event) => change({ day: event.target.value })}
        />
        <TextField
          label={t.tray.plan.time}
          type="time"
          value={plan.time}
          error={error}
          required
          onChange={(event) => change({ time: event.target.value })}
        />
      </div>
      {rooms.length === 0 ? <p className="problem">{t.tray.plan.noRoom}</p> : null}
      <Select
        label={t.tray.plan.room}
        value={plan.locationId}
        onChange={(event) => change({ locationId: event.target.value })}
      >
        {rooms.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </Select>
    </>
  );
}

interface TechniqueChoiceProps {
  techniques: readonly Technique[];
  chosen: string;
  onChoose: (techniqueId: string) => void;
}

function TechniqueChoice({ techniques, chosen, onChoose }: TechniqueChoiceProps): ReactNode {
  const t = useTexts();
  const options = techniques.map((technique) => ({
    value: technique.id,
    label: (
      <span className="technique-option">
        {technique.name}
        <small>
          {technique.visit === "sealing" ? t.tray.plan.sealing : t.tray.plan.bonding} ·{" "}
          {t.tray.plan.steps(technique.steps.length)}
          {technique.starter ? ` · ${t.tray.plan.starter}` : ""}
        </small>
      </span>
    ),
  }));
  return (
    <div className="technique-options">
      <Choice label={t.tray.plan.technique} options={options} value={chosen} onChoose={onChoose} />
    </div>
  );
}
