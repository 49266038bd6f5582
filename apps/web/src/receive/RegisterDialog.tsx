import { useState, type ReactNode } from "react";
import { useRefresh } from "../api/queries.ts";
import { RegisterForm, type Draft } from "../catalogue/RegisterForm.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import type { Attempt } from "./attempts.ts";
import { useNameOf } from "./useNameOf.ts";

interface RegisterDialogProps {
  attempt: Attempt;
  onClose: () => void;
  onRegistered: () => void;
}

/** A pack of a product that nobody registered yet: registered from its label, then received. */
export function RegisterDialog({ attempt, onClose, onRegistered }: RegisterDialogProps): ReactNode {
  const t = useTexts();
  const refresh = useRefresh();
  const announce = useAnnounce();
  const { shortDate } = useFormats();
  const { identifier, lot, useBy } = useNameOf()(attempt.body);
  const [identifiers, setIdentifiers] = useState<Draft>(
    identifier === null ? [] : [{ ...identifier, packLevel: "unit", containers: 1 }],
  );
  return (
    <Dialog title={t.receive.register.title} onClose={onClose} closeLabel={t.common.close} wide>
      <p className="register-label">
        <span className="code">{identifier?.value}</span>
        {lot === null ? null : (
          <span>
            {t.common.lot} <strong>{lot}</strong>
          </span>
        )}
        {useBy === null ? null : (
          <span>
            {t.receive.delivery.useBy} {shortDate(useBy)}
          </span>
        )}
      </p>
      <p>{t.receive.register.text}</p>
      <RegisterForm
        identifiers={identifiers}
        onIdentifiers={setIdentifiers}
        button={t.catalogue.form.registerAndReceive}
        onCancel={onClose}
        onRegistered={(product) => {
          refresh("listProducts", "getToday");
          announce({ text: t.catalogue.form.registered(product.name) });
          onRegistered();
        }}
      />
    </Dialog>
  );
}
