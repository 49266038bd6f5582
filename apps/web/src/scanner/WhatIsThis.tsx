import { useQuery } from "@tanstack/react-query";
import type { ReactNode } from "react";
import { showOwnCode } from "#domain";
import { identifierOf } from "#labels";
import { getMessages } from "#texts";
import { call } from "../api/client.ts";
import { Unreachable } from "../api/problem.ts";
import { paths } from "../paths.ts";
import { useLanguage, useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { LinkButton } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { Loading, ProblemNote } from "../ui/States.tsx";
import { leadsSomewhere } from "./OwnCodes.tsx";
import { oddOf, textsOf, type Scan } from "./scan.ts";
import { ScannerNote } from "./ScannerNote.tsx";
import { showTooth } from "../texts/tooth-notation.ts";

/** A scan on a page that takes none: says what it is and where to go with it. Changes nothing. */
export function WhatIsThis({ scan, onClose }: { scan: Scan; onClose: () => void }): ReactNode {
  const t = useTexts();
  const body = textsOf(scan);
  const answer = useQuery({
    queryKey: ["readScan", body],
    queryFn: () => call("readScan", { body }),
  });
  return (
    <Dialog title={t.scan.whatIsThis} onClose={onClose}>
      <LabelFacts scan={scan} />
      <ScannerNote found={oddOf(scan.reading)} />
      {answer.data === undefined && answer.error === null ? <Loading /> : null}
      {answer.error instanceof Unreachable ? <p role="status">{t.scan.readOffline}</p> : null}
      {answer.error !== null && !(answer.error instanceof Unreachable) ? (
        <ProblemNote error={answer.error} />
      ) : null}
      {answer.data === undefined ? null : leadsSomewhere(scan) ? (
        <KnownPlace answer={answer.data} />
      ) : (
        <Known scan={scan} answer={answer.data} />
      )}
    </Dialog>
  );
}

/** What the label says of itself, read on this device. */
export function LabelFacts({ scan }: { scan: Scan }): ReactNode {
  const t = useTexts();
  const { date } = useFormats();
  const { reading } = scan;
  if (reading.kind !== "label" && reading.kind !== "unreadable") {
    return <p className="label-facts code">{showOwnCode(reading.code)}</p>;
  }
  if (reading.kind === "unreadable") return null;
  const { lot, serial, expiry } = reading.label.fields;
  const identifier = identifierOf(reading.label.fields)?.value;
  const facts: [string, string | undefined][] = [
    [t.scan.identifier, identifier],
    [t.common.lot, lot],
    [t.scan.serial, serial],
    [t.scan.useBy, expiry === undefined ? undefined : date(expiry.date)],
  ];
  return (
    <dl className="facts label-facts">
      {facts.map(([name, value]) =>
        value === undefined ? null : (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ),
      )}
    </dl>
  );
}

type Answer = Awaited<ReturnType<typeof call<"readScan">>>;

/** The code of a place or a tray: what it names, and the way there. */
function KnownPlace({ answer }: { answer: Answer }): ReactNode {
  const { own } = useTexts().labels;
  const { place, tray } = answer;
  if (place !== null) {
    return (
      <>
        <p className="found">
          {own.place}: <strong>{place.name}</strong>
        </p>
        <LinkButton to={paths.shelf({ location: place.id })}>{own.showPlace}</LinkButton>
      </>
    );
  }
  if (tray === null) return <p role="status">{own.unknown}</p>;
  return (
    <>
      <p className="found">
        <strong>{own.trayOpened(showTooth(tray.tooth), tray.chartNumber)}</strong>
      </p>
      <LinkButton to={paths.tray(tray.id)}>{own.openTray}</LinkButton>
    </>
  );
}

interface KnownProps {
  scan: Scan;
  answer: Answer;
}

function Known({ scan, answer }: KnownProps): ReactNode {
  const t = useTexts();
  const { language } = useLanguage();
  const { product, containers, reading } = answer;
  const lot = reading.lot ?? containers[0]?.lot;
  const isLabel = scan.reading.kind === "label";
  const { containerStates, productKinds } = getMessages(language);
  return (
    <div role="status">
      {product === null ? (
        <p>{t.scan.notKnownHere}</p>
      ) : (
        <p className="found">
          <strong>{product.name}</strong>, {productKinds[product.kind]}
        </p>
      )}
      {product !== null && containers.length === 0 ? <p>{t.scan.noContainers}</p> : null}
      {containers.length === 0 ? null : (
        <ul className="found-list" aria-label={t.scan.containersHere}>
          {containers.map((container) => (
            <li key={container.id}>
              <LinkButton to={paths.container(container.id)} kind="quiet">
                <span className="code">{showOwnCode(container.code)}</span>
                {" · "}
                {containerStates[container.state]} · {container.location.name}
              </LinkButton>
            </li>
          ))}
        </ul>
      )}
      <div className="actions">
        {lot === undefined ? null : (
          <LinkButton to={paths.withdrawals({ lot })}>{t.scan.traceLot}</LinkButton>
        )}
        {isLabel && product === null ? (
          <LinkButton to={paths.newProduct(reading.identifier ?? undefined)}>
            {t.scan.register}
          </LinkButton>
        ) : null}
        {isLabel && product !== null ? (
          <LinkButton to={paths.receive()}>{t.scan.receiveIt}</LinkButton>
        ) : null}
      </div>
    </div>
  );
}
