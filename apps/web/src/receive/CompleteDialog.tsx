import { useState, type FormEvent, type ReactNode } from "react";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { joinTexts, readScanned } from "../scanner/scan.ts";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { CheckField, TextField } from "../ui/Field.tsx";
import type { Attempt, ReceiveBody } from "./attempts.ts";
import { useNameOf } from "./useNameOf.ts";
import { labelsOf, mostLabels, packBodyOf, type PackBody } from "./usePackReading.ts";

interface CompleteDialogProps {
  attempt: Attempt;
  onClose: () => void;
  onComplete: (change: Partial<ReceiveBody>) => void;
}

/** A label that does not say enough: the pack's other code is scanned, or the rest is typed. */
export function CompleteDialog({ attempt, onClose, onComplete }: CompleteDialogProps): ReactNode {
  const t = useTexts();
  const { complete: texts } = t.receive;
  const { today } = useFormats();
  const told = useNameOf()(attempt.body);
  const [doesNotFit, setDoesNotFit] = useState(false);
  useScanTarget(
    (scan) => {
      const isPack = (attempt.body.packLabels ?? []).length > 0;
      const joint = joinTexts(attempt.body, scan);
      // One more label of several, or the other symbol of the only one.
      const change: PackBody = isPack ? packBodyOf([...labelsOf(attempt.body), scan]) : joint;
      const reading = isPack ? scan.reading : readScanned(joint, today());
      const fits = reading.kind === "label" && (change.packLabels ?? []).length < mostLabels;
      setDoesNotFit(!fits);
      playSound(fits ? "taken" : "look");
      if (fits) onComplete(change);
    },
    texts.scanTarget,
    true,
  );
  return (
    <Dialog title={texts.title} onClose={onClose} closeLabel={t.common.cancel}>
      <p>
        <strong>{told.name}</strong>
        {told.lot === null ? null : ` · ${t.common.lot} ${told.lot}`}
      </p>
      <p>{texts.other}</p>
      {doesNotFit ? (
        <p className="field-error" role="alert">
          {texts.notTogether}
        </p>
      ) : null}
      {told.identifier === null ? (
        <p>{texts.noIdentifier}</p>
      ) : (
        <TypedRest lacksLot={told.lot === null} {...{ attempt, onComplete }} />
      )}
    </Dialog>
  );
}

interface TypedRestProps {
  attempt: Attempt;
  lacksLot: boolean;
  onComplete: (change: Partial<ReceiveBody>) => void;
}

function TypedRest({ attempt, lacksLot, onComplete }: TypedRestProps): ReactNode {
  const { complete: texts } = useTexts().receive;
  const lacksUseBy = useNameOf()(attempt.body).useBy === null;
  const [lot, setLot] = useState(attempt.body.lot ?? "");
  const [useBy, setUseBy] = useState(attempt.body.useBy ?? "");
  const [none, setNone] = useState(false);
  function submit(event: FormEvent): void {
    event.preventDefault();
    onComplete({
      ...(lacksLot ? { lot: lot.trim() } : {}),
      ...(lacksUseBy && !none && useBy !== "" ? { useBy } : {}),
      ...(lacksUseBy && none ? { acceptWithoutUseBy: true } : {}),
    });
  }
  return (
    <form className="form" onSubmit={submit}>
      <p>{texts.orType}</p>
      {lacksLot ? (
        <TextField
          label={texts.lot}
          hint={texts.lotHint}
          className="code"
          value={lot}
          required
          maxLength={40}
          autoComplete="off"
          autoCapitalize="off"
          spellCheck={false}
          onChange={(event) => setLot(event.target.value)}
        />
      ) : null}
      {lacksUseBy ? (
        <>
          <TextField
            label={texts.useBy}
            hint={texts.useByHint}
            type="date"
            value={none ? "" : useBy}
            disabled={none}
            required={!none}
            onChange={(event) => setUseBy(event.target.value)}
          />
          <CheckField
            label={texts.noUseBy}
            checked={none}
            onChange={(event) => setNone(event.target.checked)}
          />
        </>
      ) : null}
      <Button kind="main" type="submit">
        {texts.button}
      </Button>
    </form>
  );
}
