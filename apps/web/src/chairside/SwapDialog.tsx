import { useQueryClient } from "@tanstack/react-query";
import { useContext, useState, type ReactNode } from "react";
import { showContainerCode } from "#domain";
import { keyOf, showAnswer, useRead, useRefresh } from "../api/queries.ts";
import { useOutboxWrite } from "../outbox/OutboxProvider.tsx";
import { ScanEntry } from "../scanner/ScanEntry.tsx";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { textsOf, type Scan } from "../scanner/scan.ts";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { nameScan } from "../tray/pending.ts";
import { useDescribe, useKnownStock } from "../tray/useTrayWork.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { CheckField, Choice } from "../ui/Field.tsx";
import { useSayError } from "../ui/States.tsx";
import type { StepDialogProps } from "./DeviationDialog.tsx";
import { ToldTime } from "./late-time.ts";

interface SwapDialogProps extends StepDialogProps {
  /** Set where a scan at the step opened the dialog: one tap then goes on with it. */
  scanned: Scan | null;
}

/** A scan goes on with another container; here is said what it replaces, and if that is empty. */
export function SwapDialog({ record, step, scanned, onClose }: SwapDialogProps): ReactNode {
  const t = useTexts();
  const [replaces, setReplaces] = useState(step.containers[0]?.id ?? "");
  // Only what somebody says is booked as empty.
  const [emptied, setEmptied] = useState(false);
  const swap = useSwap({ record, step, onClose });
  const goOnWith = (scan: Scan) => swap(scan, replaces === "" ? {} : { replaces, emptied });
  useScanTarget(goOnWith, t.chairside.swapTitle(step.name));
  const options = [
    ...step.containers.map(({ id, productName, code }) => ({
      value: id,
      label: `${productName} ${showContainerCode(code)}`,
    })),
    { value: "", label: t.chairside.bothStay },
  ];
  return (
    <Dialog title={t.chairside.swapTitle(step.name)} onClose={onClose} closeLabel={t.common.cancel}>
      {scanned === null ? <p>{t.chairside.swapLead}</p> : <ScannedName scan={scanned} />}
      <Choice
        label={t.chairside.replaces}
        options={options}
        value={replaces}
        onChoose={setReplaces}
      />
      {replaces === "" ? null : (
        <CheckField
          label={t.chairside.emptied}
          checked={emptied}
          onChange={(event) => setEmptied(event.target.checked)}
        />
      )}
      {scanned === null ? (
        <ScanEntry withCamera />
      ) : (
        <Button kind="main" className="big" onClick={() => goOnWith(scanned)}>
          {t.chairside.goOnWith}
        </Button>
      )}
      {scanned === null ? <WhatToFetch record={record} step={step} /> : null}
    </Dialog>
  );
}

function ScannedName({ scan }: { scan: Scan }): ReactNode {
  const { today } = useFormats();
  const stock = useKnownStock();
  const describe = useDescribe();
  const { name, detail } = nameScan(scan, stock, { today: today(), describe });
  return (
    <p className="step-container">
      {name}
      <span>{detail}</span>
    </p>
  );
}

function WhatToFetch({ record, step }: Pick<StepDialogProps, "record" | "step">): ReactNode {
  const t = useTexts();
  const tray = useRead("getTray", { params: { trayId: record.trayId } });
  const best = tray.data?.suggestions[step.key] ?? [];
  if (best.length === 0) return null;
  return (
    <section>
      <h3>{t.tray.fetch}</h3>
      <ul>
        {best.map(({ containerId, code, place, productName }) => (
          <li key={containerId}>
            {t.tray.take(showContainerCode(code), place)} · {productName}
          </li>
        ))}
      </ul>
    </section>
  );
}

type Replaced = { replaces?: string; emptied?: boolean };

function useSwap({
  record,
  step,
  onClose,
}: Omit<StepDialogProps, "recordIds">): (scan: Scan, replaced: Replaced) => void {
  const t = useTexts();
  const { today } = useFormats();
  const stock = useKnownStock();
  const describe = useDescribe();
  const write = useOutboxWrite();
  const queries = useQueryClient();
  const refresh = useRefresh();
  const announce = useAnnounce();
  const sayError = useSayError();
  const toldTime = useContext(ToldTime);
  return (scan, replaced) => {
    const { reading } = scan;
    const { name } = nameScan(scan, stock, { today: today(), describe });
    const old = step.containers.find(({ id }) => id === replaced.replaces);
    if (reading.kind === "container" && reading.code === old?.code) {
      playSound("look");
      announce({ text: t.chairside.sameContainer(name), tone: "look" });
      return;
    }
    onClose();
    announce({ text: t.scan.read(name) });
    write({
      route: "swapContainer",
      params: { recordId: record.id },
      body: {
        ...{ stepKey: step.key, ...textsOf(scan), ...replaced },
        ...(toldTime === null ? {} : { occurredAt: toldTime }),
      },
      about: name,
      belongsTo: record.id,
      onAnswer: (answer) =>
        showAnswer(queries, keyOf("getRecord", { params: { recordId: record.id } }), answer),
    }).then(
      (answer) => {
        refresh("getTray", "listContainers");
        const stops = answer.check?.mayStart === false;
        playSound(stops ? "look" : "taken");
        announce({ text: t.chairside.swapped(name), tone: stops ? "bad" : "good" });
      },
      (error: unknown) => {
        playSound("look");
        announce({ text: `${t.outbox.refusedToast(name)}. ${sayError(error)}`, tone: "bad" });
      },
    );
  };
}
