import type { ReactNode } from "react";
import { showOwnCode } from "#domain";
import { useRead } from "../api/queries.ts";
import { usePlaceTarget } from "../scanner/OwnCodes.tsx";
import { ScanEntry } from "../scanner/ScanEntry.tsx";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import type { Container } from "../ui/ContainerWords.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { isShelf } from "./put-away.ts";
import { usePutAway, type PutAway } from "./usePutAway.ts";

interface PutAwayDialogProps {
  onClose: () => void;
}

/** Putting away: containers are scanned, then the place, and they are there. */
export function PutAwayDialog({ onClose }: PutAwayDialogProps): ReactNode {
  const { putAway: t } = useTexts().labels;
  const putAway = usePutAway();
  const { data } = useRead("listLocations", {}, { staleMs: 300_000 });
  const { list, busy, moveTo } = putAway;
  useScanTarget(putAway.scan, t.scanTarget);
  usePlaceTarget(moveTo);
  const places = data?.locations.filter(isShelf) ?? [];
  return (
    <Dialog title={t.title} onClose={onClose}>
      <p>{t.lead}</p>
      <ScanEntry withCamera />
      <section className="put-away" aria-label={t.list}>
        {list.length === 0 ? <p className="put-away-none">{t.empty}</p> : null}
        <ul className="rows">
          {list.map((container) => (
            <Row key={container.id} {...{ container, putAway }} />
          ))}
        </ul>
      </section>
      {list.length === 0 ? null : (
        <fieldset className="choice" disabled={busy}>
          <legend>{busy ? t.busy : t.to}</legend>
          <div className="choice-row">
            {places.map((place) => (
              <Button key={place.id} onClick={() => moveTo(place)}>
                {place.name}
              </Button>
            ))}
          </div>
        </fieldset>
      )}
    </Dialog>
  );
}

function Row({ container, putAway }: { container: Container; putAway: PutAway }): ReactNode {
  const { putAway: t } = useTexts().labels;
  const { id, code, product, location } = container;
  const shown = showOwnCode(code);
  return (
    <li className="row">
      <span>
        <span className="row-title">{product.name}</span> <span className="code">{shown}</span>{" "}
        <span className="soft">{t.from(location.name)}</span>
      </span>
      <Button
        kind="quiet"
        className="small"
        aria-label={t.takeOut(shown)}
        onClick={() => putAway.takeOut(id)}
      >
        ✕
      </Button>
    </li>
  );
}
