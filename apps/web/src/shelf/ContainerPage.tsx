import { useState, type ReactNode } from "react";
import { Link } from "wouter";
import { showContainerCode } from "#domain";
import { getMessages } from "#texts";
import type { AnswerOf } from "#contracts/operations";
import { useRead } from "../api/queries.ts";
import { sizeFor } from "../labels/label-size.ts";
import { PrintButton } from "../labels/PrintButton.tsx";
import { paths } from "../paths.ts";
import { usePlaceTarget, type ScannedPlace } from "../scanner/OwnCodes.tsx";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { LinkButton } from "../ui/Button.tsx";
import { LastDay, StateWord, type Container } from "../ui/ContainerWords.tsx";
import { Page } from "../ui/Page.tsx";
import { QueryView } from "../ui/States.tsx";
import { Timeline } from "../ui/Timeline.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import { Vessel } from "../ui/Vessel.tsx";
import { ContainerActs } from "./ContainerActs.tsx";
import { MoveHere } from "./MoveHere.tsx";
import { useStoryEvents } from "./story.tsx";
import { UndoDialog, type Movement } from "./UndoDialog.tsx";
import { useFindScanned } from "./useFindScanned.ts";
import "./shelf.css";

type Story = AnswerOf<"getContainer">;

/** A container: what it is, what can be done with it now, and its life story. */
export default function ContainerPage({ containerId }: { containerId: string }): ReactNode {
  const t = useTexts();
  const query = useRead("getContainer", { params: { containerId } });
  useScanTarget(useFindScanned(), t.shelf.story.scanTarget);
  return <QueryView query={query}>{(story) => <ContainerView story={story} />}</QueryView>;
}

function ContainerView({ story }: { story: Story }): ReactNode {
  const t = useTexts();
  const { language } = useFormats();
  const { container } = story;
  const [undoing, undo] = useState<Movement | null>(null);
  const [place, setPlace] = useState<ScannedPlace | null>(null);
  const mayMove = container.state === "sealed" || container.state === "open";
  usePlaceTarget(mayMove ? setPlace : null);
  const events = useStoryEvents(story, undo);
  const code = showContainerCode(container.code);
  return (
    <Page
      title={container.product.name}
      tabTitle={`${container.product.name} ${code}`}
      lead={getMessages(language).productKinds[container.product.kind]}
      actions={
        <>
          <LinkButton to={paths.product(container.product.id)}>
            {t.shelf.story.toProduct}
          </LinkButton>
          <LinkButton to={paths.shelf({ product: container.product.id, lot: container.lot })}>
            {t.shelf.story.toSameLot}
          </LinkButton>
          <LinkButton to={paths.withdrawals({ container: container.code })}>
            {t.shelf.story.toTrace}
          </LinkButton>
        </>
      }
    >
      <Warnings container={container} />
      <div className="container-sides">
        <section className="panel container-now">
          <div className="container-face">
            <Vessel kind={container.product.kind} filled={container.state === "sealed"} />
            <p className="container-code">{code}</p>
            <PrintButton
              kind="quiet"
              subjects={[{ kind: "container", id: container.id }]}
              size={sizeFor([container.product.kind])}
            >
              {t.labels.print.ofContainer}
            </PrintButton>
          </div>
          <ContainerFacts container={container} />
          <ContainerActs container={container} />
        </section>
        <section className="panel">
          <h2>{t.shelf.story.title}</h2>
          <Timeline label={t.shelf.story.title} events={events} />
        </section>
      </div>
      {undoing === null ? null : <UndoDialog movement={undoing} onClose={() => undo(null)} />}
      {place === null ? null : (
        <MoveHere {...{ container, place }} onClose={() => setPlace(null)} />
      )}
    </Page>
  );
}

function Warnings({ container }: { container: Container }): ReactNode {
  const { story: t } = useTexts().shelf;
  const { today } = useFormats();
  const isHere = ["sealed", "open", "quarantined"].includes(container.state);
  const isPast = isHere && container.endsOn !== null && container.endsOn.date < today();
  const warnings = [
    container.withdrawn && isHere ? t.withdrawn : "",
    isPast && container.state !== "quarantined" ? t.past : "",
  ];
  return warnings.map((warning) =>
    warning === "" ? null : (
      <p key={warning} className="container-warning">
        <VerdictShape verdict="stop" />
        {warning}
      </p>
    ),
  );
}

function ContainerFacts({ container }: { container: Container }): ReactNode {
  const t = useTexts();
  const { story, decidedBy } = t.shelf;
  const { date } = useFormats();
  const { lot, location, state, endsOn, useBy, openedOn, serial } = container;
  const useByText =
    useBy === null
      ? story.noUseBy
      : useBy.precision === "month"
        ? story.monthOnly(date(useBy.date))
        : date(useBy.date);
  const facts: [string, ReactNode][] = [
    [story.state, <StateWord key="state" state={state} />],
    [
      story.place,
      <Link key="place" to={paths.shelf({ location: location.id })} className="reach">
        {location.name}
      </Link>,
    ],
    [story.lot, lot],
    [story.useBy, useByText],
    [story.openedOn, openedOn === null ? story.notOpened : date(openedOn)],
    [
      story.lastDay,
      <span key="last-day">
        <LastDay endsOn={endsOn} />
        {endsOn === null ? null : (
          <small className="decided-by">{decidedBy[endsOn.decidedBy]}</small>
        )}
      </span>,
    ],
  ];
  if (serial !== null) facts.push([story.serial, serial]);
  return (
    <dl className="facts">
      {facts.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
