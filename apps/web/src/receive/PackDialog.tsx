import { useState, type ReactNode } from "react";
import { ScanEntry } from "../scanner/ScanEntry.tsx";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { textsOf, type Scan, type ScanTexts } from "../scanner/scan.ts";
import { showControls } from "../scanner/show-controls.ts";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import { PackTable, useShownDate } from "./PackTable.tsx";
import {
  mostLabels,
  packBodyOf,
  usePackReading,
  type PackBody,
  type PackTold,
} from "./usePackReading.ts";

interface PackDialogProps {
  /** Labels scanned before, where a pack stands apart already. */
  labels?: readonly ScanTexts[];
  onClose: () => void;
  onReceive: (pack: PackBody) => void;
  onSetAside: (pack: PackBody) => void;
}

/** Opens the dialog for a pack that bears several labels. */
export function PackButton(acts: Pick<PackDialogProps, "onReceive" | "onSetAside">): ReactNode {
  const { pack: t } = useTexts();
  const [isOpen, open] = useState(false);
  const closing = (act: (pack: PackBody) => void) => (pack: PackBody) => {
    open(false);
    act(pack);
  };
  return (
    <>
      <Button onClick={() => open(true)}>{t.open}</Button>
      {isOpen ? (
        <PackDialog
          onClose={() => open(false)}
          onReceive={closing(acts.onReceive)}
          onSetAside={closing(acts.onSetAside)}
        />
      ) : null}
    </>
  );
}

/** Box, bottle, sleeve: each scan is a further label of one pack, compared with those before. */
export function PackDialog({ labels: before = [], ...acts }: PackDialogProps): ReactNode {
  const t = useTexts();
  const { labels, note, remove } = usePackLabels(before);
  const reading = usePackReading()(labels);
  const hasConflict = reading.conflicts.length > 0;
  const namesProduct = reading.lines.some(({ field }) => field === "identifier");
  return (
    <Dialog
      title={t.pack.title}
      onClose={acts.onClose}
      closeLabel={t.common.cancel}
      wide
      actions={
        hasConflict ? (
          <Button kind="main" onClick={() => acts.onSetAside(packBodyOf(labels))}>
            {t.pack.setAside}
          </Button>
        ) : (
          <Button
            kind="main"
            disabled={!namesProduct}
            onClick={() => acts.onReceive(packBodyOf(labels))}
          >
            {t.pack.receive}
          </Button>
        )
      }
    >
      {note === null ? null : (
        <p className="field-error" role="alert">
          {note}
        </p>
      )}
      <div role="status">
        {hasConflict ? <Conflict reading={reading} /> : null}
        {hasConflict || labels.length === 0 ? null : <Together {...{ reading, namesProduct }} />}
      </div>
      {labels.length === 0 ? (
        <p>{t.pack.lead}</p>
      ) : (
        <>
          <ScannedLabels {...{ labels, remove }} />
          <PackTable reading={reading} />
        </>
      )}
      <ScanEntry withCamera />
    </Dialog>
  );
}

/** The labels scanned so far, and what is to be said of the last scan. */
function usePackLabels(before: readonly ScanTexts[]) {
  const { pack: t } = useTexts();
  const [labels, setLabels] = useState(before);
  const [note, setNote] = useState<string | null>(null);
  function add(scan: Scan): void {
    const text = scan.barcodes.join("\n");
    const isHere = labels.some(({ barcodes }) => barcodes.join("\n") === text);
    const refused =
      (scan.reading.kind !== "label" && t.ownCode) ||
      (isHere && t.twice) ||
      (labels.length === mostLabels && t.full);
    setNote(refused || null);
    playSound(refused ? "look" : "taken");
    if (!refused) setLabels([...labels, textsOf(scan)]);
  }
  useScanTarget(add, t.scanTarget, true);
  const remove = (index: number) => {
    setNote(null);
    setLabels(labels.filter((_, at) => at !== index));
  };
  return { labels, note, remove };
}

interface ScannedLabelsProps {
  labels: readonly ScanTexts[];
  remove: (index: number) => void;
}

function ScannedLabels({ labels, remove }: ScannedLabelsProps): ReactNode {
  const { pack: t, common } = useTexts();
  return (
    <ol className="pack-labels">
      {labels.map(({ barcodes }, index) => (
        <li key={barcodes.join("\n")}>
          <span className="pack-label-name">{t.label(index + 1)}</span>
          <span className="code">{showControls(barcodes.join(" "))}</span>
          <Button kind="quiet" aria-label={t.remove(index + 1)} onClick={() => remove(index)}>
            {common.remove}
          </Button>
        </li>
      ))}
    </ol>
  );
}

function Conflict({ reading }: { reading: PackTold }): ReactNode {
  const { pack: t } = useTexts();
  const isOtherItem = reading.conflicts.some(({ field }) => field === "identifier");
  return (
    <section className="pack-conflict">
      <h3>
        <VerdictShape verdict="stop" />
        {t.conflict}
      </h3>
      <p>{t.keepApart}</p>
      {isOtherItem ? <p>{t.otherItem}</p> : null}
      <ul>
        {t.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ul>
    </section>
  );
}

interface TogetherProps {
  reading: PackTold;
  namesProduct: boolean;
}

function Together({ reading, namesProduct }: TogetherProps): ReactNode {
  const { pack: t, receive, common } = useTexts();
  const showDate = useShownDate();
  const { product, items } = reading;
  const { lot, expiry, serial } = items[0]?.fields ?? {};
  const facts = [
    lot === undefined ? "" : `${common.lot} ${lot}`,
    expiry === undefined ? "" : `${receive.delivery.useBy} ${showDate(expiry)}`,
    serial === undefined ? "" : receive.delivery.serial(serial),
  ].filter((fact) => fact !== "");
  return (
    <section className="pack-together">
      <h3>{t.together}</h3>
      {namesProduct ? (
        <p>
          <strong>{product?.name ?? receive.refused.unknownProduct}</strong>
          {facts.map((fact) => ` · ${fact}`)}
        </p>
      ) : (
        <p>{t.noProduct}</p>
      )}
    </section>
  );
}
