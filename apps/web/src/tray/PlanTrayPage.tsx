import { useState, type FormEvent, type ReactNode } from "react";
import { useLocation } from "wouter";
import { isTooth } from "#domain";
import type { AnswerOf } from "#contracts/operations";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { serverNowMs } from "../api/server-clock.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button, LinkButton } from "../ui/Button.tsx";
import { Choice, Select, TextField } from "../ui/Field.tsx";
import { Page } from "../ui/Page.tsx";
import { ProblemNote, QueryView } from "../ui/States.tsx";
import { instantAt, nextHalfHour } from "./practice-time.ts";
import { ToothPicture, type Dentition } from "./ToothPicture.tsx";
import { usePlanQuery } from "./usePlanQuery.ts";
import "./trays.css";

type Technique = AnswerOf<"listTechniques">["techniques"][number];
type Room = AnswerOf<"listLocations">["locations"][number];

/** Plans a tray for an appointment: patient, tooth, technique, room and time. */
export default function PlanTrayPage(): ReactNode {
  const t = useTexts();
  const { seal } = usePlanQuery();
  const techniques = useRead("listTechniques", {}, { staleMs: 300_000 });
  const locations = useRead("listLocations", {}, { staleMs: 300_000 });
  return (
    <Page
      title={t.tray.plan.title}
      actions={
        seal === "" ? null : <LinkButton to={paths.record(seal)}>{t.waiting.record}</LinkButton>
      }
    >
      <QueryView query={techniques}>
        {(found) => (
          <QueryView query={locations}>
            {(places) => (
              <PlanForm
                techniques={found.techniques}
                rooms={places.locations.filter(({ kind }) => kind === "operatory")}
              />
            )}
          </QueryView>
        )}
      </QueryView>
    </Page>
  );
}

interface PlanFormProps {
  techniques: readonly Technique[];
  rooms: readonly Room[];
}

function usePlan({ techniques, rooms }: PlanFormProps) {
  const { today, timeZone } = useFormats();
  const query = usePlanQuery();
  const [plan, setPlan] = useState({
    chartNumber: query.chart,
    tooth: query.tooth,
    techniqueId: (techniques.find(({ id }) => id === query.technique) ?? techniques[0])?.id ?? "",
    locationId: rooms[0]?.id ?? "",
    day: query.on || today(),
    time: nextHalfHour(new Date(serverNowMs()).toISOString(), timeZone),
  });
  const change = (part: Partial<typeof plan>) => setPlan((before) => ({ ...before, ...part }));
  return { plan, change };
}

function PlanForm(props: PlanFormProps): ReactNode {
  const t = useTexts();
  const { timeZone } = useFormats();
  const { plan, change } = usePlan(props);
  const refresh = useRefresh();
  const [, navigate] = useLocation();
  const [dentition, setDentition] = useState<Dentition>("permanent");
  const [tried, setTried] = useState(false);
  const save = useWrite("planTray", (tray) => {
    refresh("listTrays", "getToday");
    navigate(paths.tray(tray.id));
  });
  const appointmentAt = instantAt(plan.day, plan.time, timeZone);
  function submit(event: FormEvent): void {
    event.preventDefault();
    setTried(true);
    if (appointmentAt === null || !isTooth(plan.tooth)) return;
    const { chartNumber, tooth, techniqueId, locationId } = plan;
    const teeth = [{ tooth }];
    save.mutate({ body: { chartNumber, teeth, techniqueId, locationId, appointmentAt } });
  }
  return (
    <form className="plan" onSubmit={submit} noValidate={false}>
      <div className="form">
        <TextField
          label={t.tray.plan.chart}
          hint={t.tray.plan.chartHint}
          value={plan.chartNumber}
          maxLength={40}
          autoComplete="off"
          required
          onChange={(event) => change({ chartNumber: event.target.value })}
        />
        <WhenAndWhere
          {...{ plan, change, rooms: props.rooms }}
          error={tried && appointmentAt === null ? t.tray.plan.noSuchTime : undefined}
        />
        <TechniqueChoice
          techniques={props.techniques}
          chosen={plan.techniqueId}
          onChoose={(techniqueId) => change({ techniqueId })}
        />
        <ProblemNote error={save.error} />
        <Button kind="main" type="submit" busy={save.isPending}>
          {t.tray.plan.button}
        </Button>
      </div>
      <div className="form">
        <TextField
          label={t.tray.plan.tooth}
          hint={t.tray.plan.toothHint}
          error={tried && !isTooth(plan.tooth) ? t.tray.plan.noSuchTooth : undefined}
          value={plan.tooth}
          inputMode="numeric"
          autoComplete="off"
          required
          onChange={(event) => change({ tooth: event.target.value.trim() })}
        />
        <ToothPicture
          dentition={dentition}
          tooth={plan.tooth}
          onDentition={setDentition}
          onTooth={(tooth) => change({ tooth })}
        />
      </div>
    </form>
  );
}

interface WhenAndWhereProps extends Pick<PlanFormProps, "rooms"> {
  plan: { day: string; time: string; locationId: string };
  change: (part: { day?: string; time?: string; locationId?: string }) => void;
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
