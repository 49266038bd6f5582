import type { ReactNode } from "react";
import { Link } from "wouter";
import { showContainerCode } from "#domain";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { CodeLabel } from "../ui/CodeLabel.tsx";
import { CertaintyMark } from "./CertaintyMark.tsx";
import { certainties, countPatients, countTeeth, type TracedLot } from "./sums.ts";
import { showTooth } from "../texts/tooth-notation.ts";

/** The way of a lot as a picture: what is certain a whole mark, what is possible an open one. */
export function Flow({ lot }: { lot: TracedLot }): ReactNode {
  const { flow: t } = useTexts().withdrawal;
  const here = lot.balance.onHand + lot.balance.quarantined;
  const teeth = countTeeth(lot.teeth);
  const toothCount = teeth.certain + teeth.inferred + teeth.possible;
  return (
    <ol className="flow" aria-label={t.label}>
      <Station count={lot.balance.received} label={t.received} />
      <Station count={here} label={t.here} empty={t.nowhere}>
        <Places lot={lot} />
      </Station>
      <Station count={lot.planned.length} label={t.planned} empty={t.noTray}>
        <Planned lot={lot} />
      </Station>
      <Station count={toothCount} label={t.teeth} empty={t.noTooth}>
        <p className="flow-marks">
          {certainties.flatMap((certainty) =>
            Array.from({ length: teeth[certainty] }, (_, place) => (
              <CertaintyMark key={`${certainty} ${place}`} certainty={certainty} />
            )),
          )}
        </p>
        <Certainties counts={teeth} />
      </Station>
      <Station count={countPatients(lot.teeth)} label={t.patients} />
    </ol>
  );
}

interface StationProps {
  count: number;
  label: string;
  /** What stands there where there is none. */
  empty?: string;
  children?: ReactNode;
}

function Station({ count, label, empty, children }: StationProps): ReactNode {
  return (
    <li className={count === 0 ? "none" : undefined}>
      <p className="flow-count">
        <strong>{count}</strong> {label}
      </p>
      {count === 0 ? <p className="soft">{empty}</p> : children}
    </li>
  );
}

function Places({ lot }: { lot: TracedLot }): ReactNode {
  return (
    <ul className="flow-list">
      {lot.here.map(({ location, quantity, containers }) => (
        <li key={location.id}>
          <p>
            <strong>{quantity}</strong> · {location.name}
          </p>
          <span className="code-labels">
            {containers.map(({ id, code }) => (
              <CodeLabel key={id} id={id} code={code} />
            ))}
          </span>
        </li>
      ))}
    </ul>
  );
}

function Planned({ lot }: { lot: TracedLot }): ReactNode {
  const t = useTexts();
  const { dateTime } = useFormats();
  return (
    <ul className="flow-list">
      {lot.planned.map(({ trayId, tooth, chartNumber, appointmentAt, containerCode }) => (
        <li key={`${trayId} ${containerCode}`}>
          <Link to={paths.tray(trayId)} className="name-link">
            {t.common.tooth(showTooth(tooth))}, {t.common.chart(chartNumber)}
          </Link>
          <p className="soft">
            {dateTime(appointmentAt)} · {showContainerCode(containerCode)}
          </p>
        </li>
      ))}
    </ul>
  );
}

function Certainties({ counts }: { counts: ReturnType<typeof countTeeth> }): ReactNode {
  const { certainty: names } = useTexts().withdrawal;
  return (
    <ul className="flow-certainties">
      {certainties.map((certainty) => (
        <li key={certainty}>
          <CertaintyMark certainty={certainty} />
          {counts[certainty]} {names[certainty]}
        </li>
      ))}
    </ul>
  );
}
