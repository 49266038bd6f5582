import { useState, type ReactNode } from "react";
import { useRead } from "../api/queries.ts";
import { serverNowMs } from "../api/server-clock.ts";
import { paths } from "../paths.ts";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { ScannerNote } from "../scanner/ScannerNote.tsx";
import { ScanEntry } from "../scanner/ScanEntry.tsx";
import { useHasRole } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { LinkButton } from "../ui/Button.tsx";
import { FindingNote, type FindingView } from "../ui/FindingNote.tsx";
import { Page } from "../ui/Page.tsx";
import { QueryView } from "../ui/States.tsx";
import { SurfaceNeeds } from "../waiting/SurfaceNeeds.tsx";
import { Allergies } from "./Allergies.tsx";
import { arrangeTray, nameTeeth, type Column, type Tray } from "./columns.ts";
import { VisitTeeth } from "./VisitTeeth.tsx";
import { ContainerCard, PendingCard } from "./ContainerCard.tsx";
import { OverrideDialog } from "./OverrideDialog.tsx";
import { StepColumn } from "./StepColumn.tsx";
import { StepDialog } from "./StepDialog.tsx";
import { TrayStrip } from "./TrayStrip.tsx";
import { useRemoveFromTray, useScanIntoTray, useTrayPending } from "./useTrayWork.ts";
import "./tray.css";

/** The tray screen: what is set, what is missing, what to fetch. */
export default function TrayPage({ trayId }: { trayId: string }): ReactNode {
  const t = useTexts();
  const query = useRead("getTray", { params: { trayId } }, { everyMs: 15_000 });
  if (query.data !== undefined) {
    return (
      <QueryView query={query}>{(tray) => <TrayScreen tray={tray} query={query} />}</QueryView>
    );
  }
  return (
    <Page title={t.tray.title}>
      <QueryView query={query}>{() => null}</QueryView>
    </Page>
  );
}

interface TrayScreenProps {
  tray: Tray;
  query: { error: unknown };
}

function TrayScreen({ tray, query }: TrayScreenProps): ReactNode {
  const t = useTexts();
  const { dateTime } = useFormats();
  const { pending, removed, count } = useTrayPending(tray.id);
  const [passing, pass] = useState<FindingView | null>(null);
  const [stepKey, openStep] = useState<string | null>(null);
  const isPlanned = tray.state !== "cleared" && tray.state !== "in-use";
  const maySet = useHasRole("assistant", "dentist");
  const isOpen = maySet && isPlanned;
  const scan = useScanIntoTray(tray);
  const remove = useRemoveFromTray(tray);
  useScanTarget(isOpen ? scan : null, t.tray.scanTarget(nameTeeth(tray)));
  const { columns, apart } = arrangeTray(tray, pending, removed);
  const opened = columns.find(({ step }) => step.key === stepKey);
  const onRemove = isOpen ? remove : null;
  return (
    <Page
      full
      className="tray-page"
      title={t.tray.titleOf(nameTeeth(tray), tray.chartNumber)}
      lead={`${tray.technique.name} · ${tray.location.name} · ${dateTime(tray.appointmentAt)}`}
      actions={<TrayActions {...{ tray, isPlanned, isOpen }} />}
    >
      {tray.state === "cleared" ? <p className="hint">{t.tray.closed}</p> : null}
      {tray.state === "in-use" ? (
        <div className="actions">
          <p className="hint">{t.tray.inUse}</p>
          <LinkButton to={paths.chairside(tray.id)}>{t.tray.toRecord}</LinkButton>
        </div>
      ) : null}
      <VisitTeeth teeth={tray.teeth} />
      <div className="tray-body">
        <ol
          className="tray"
          aria-label={t.tray.steps}
          style={{ "--columns": columns.map(widthOf).join(" ") }}
        >
          {columns.map((column, index) => (
            <StepColumn
              key={column.step.key}
              {...{ column, index, onRemove }}
              onOpen={() => openStep(column.step.key)}
              onPass={pass}
            />
          ))}
        </ol>
        <Apart {...{ apart, onRemove }} onPass={pass} />
        <SurfaceNeeds tray={tray} />
        <ScannerNote
          found={tray.items.flatMap(({ reading }) => reading.warnings.map((kind) => ({ kind })))}
        />
      </div>
      <TrayStrip tray={tray} waiting={count} isStale={query.error !== null} />
      {opened === undefined ? null : (
        <StepDialog
          column={opened}
          onRemove={onRemove}
          onPass={pass}
          onClose={() => openStep(null)}
        />
      )}
      {passing === null ? null : (
        <OverrideDialog trayId={tray.id} finding={passing} onClose={() => pass(null)} />
      )}
    </Page>
  );
}

interface TrayActionsProps {
  tray: Tray;
  isPlanned: boolean;
  isOpen: boolean;
}

function TrayActions({ tray, isPlanned, isOpen }: TrayActionsProps): ReactNode {
  const t = useTexts();
  const isDentist = useHasRole("dentist");
  const mayKeep = useHasRole("assistant", "dentist", "office", "owner");
  const hasBegun = Date.parse(tray.appointmentAt) <= serverNowMs();
  return (
    <>
      <Allergies patient={tray.patient} />
      {isPlanned ? (
        <LinkButton to={paths.changeVisit(tray.id)}>{t.tray.plan.change}</LinkButton>
      ) : null}
      {isPlanned && isDentist && hasBegun ? (
        <LinkButton to={paths.lateEntry(tray.id)}>{t.chairside.late}</LinkButton>
      ) : null}
      {mayKeep && tray.items.length > 0 ? (
        <LinkButton to={paths.newTemplate({ tray: tray.id })}>{t.templates.fromTray}</LinkButton>
      ) : null}
      {isOpen ? <ScanEntry /> : null}
    </>
  );
}

/** A step without material needs room for its name alone. */
const widthOf = ({ usesMaterial }: Column): string =>
  usesMaterial ? "minmax(158px, 1fr)" : "minmax(92px, 0.5fr)";

interface ApartProps {
  apart: ReturnType<typeof arrangeTray>["apart"];
  onRemove: ReturnType<typeof useRemoveFromTray> | null;
  onPass: (finding: FindingView) => void;
}

function Apart({ apart, onRemove, onPass }: ApartProps): ReactNode {
  const t = useTexts();
  const { items, pending, findings } = apart;
  if (items.length + pending.length + findings.length === 0) return null;
  return (
    <section className="tray-apart">
      <h2>{items.length > 0 ? t.tray.misplaced : t.finding.whole}</h2>
      {items.map((item) => (
        <ContainerCard key={item.id} item={item} onRemove={onRemove} />
      ))}
      {pending.map((scan) => (
        <PendingCard key={scan.key} scan={scan} />
      ))}
      {findings.map((finding) => (
        <FindingNote
          key={`${finding.code} ${finding.subject.itemId}`}
          finding={finding}
          onPass={onPass}
        />
      ))}
    </section>
  );
}
