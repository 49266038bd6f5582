import { useState, type ReactNode } from "react";
import { useRead } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { Select, TextArea } from "../ui/Field.tsx";
import { QueryView } from "../ui/States.tsx";
import type { StepDialogProps } from "./DeviationDialog.tsx";
import { useRecordEvent } from "./useChairWork.ts";

/** A product used without a scan: which, and why; its possible lots are found when asked for. */
export function NotScannedDialog({ record, step, recordIds, onClose }: StepDialogProps): ReactNode {
  const t = useTexts();
  const announce = useAnnounce();
  const write = useRecordEvent(recordIds);
  const products = useRead("listProducts", {}, { staleMs: 300_000 });
  const [productId, setProductId] = useState("");
  const [reason, setReason] = useState("");
  const accepts = record.technique.steps.find(({ key }) => key === step.key)?.accepts ?? [];
  return (
    <Dialog
      title={t.chairside.notScannedTitle(step.name)}
      onClose={onClose}
      closeLabel={t.common.cancel}
    >
      <p>{t.chairside.notScannedLead}</p>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          onClose();
          const body = { kind: "not-scanned", stepKey: step.key, productId, reason } as const;
          void write(body, t.chairside.notScanned).then((isSaved) => {
            if (isSaved) announce({ text: t.chairside.notScannedSaved, tone: "look" });
          });
        }}
      >
        <QueryView query={products}>
          {(found) => (
            <Select
              label={t.chairside.product}
              value={productId}
              required
              onChange={(event) => setProductId(event.target.value)}
            >
              <option value="">{t.common.choose}</option>
              {found.products
                .filter(({ kind }) => accepts.includes(kind))
                .map(({ id, name }) => (
                  <option key={id} value={id}>
                    {name}
                  </option>
                ))}
            </Select>
          )}
        </QueryView>
        <TextArea
          label={t.chairside.notScannedReason}
          value={reason}
          minLength={3}
          maxLength={2000}
          required
          onChange={(event) => setReason(event.target.value)}
        />
        <Button kind="main" type="submit" disabled={productId === "" || reason.trim().length < 3}>
          {t.common.save}
        </Button>
      </form>
    </Dialog>
  );
}
