import { useState, type FormEvent, type ReactNode } from "react";
import { identifierOf, type DeviceIdentifier } from "#labels";
import { useRefresh, useWrite } from "../api/queries.ts";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { fieldError, ProblemNote } from "../ui/States.tsx";
import type { Identifier, Product } from "./facts.ts";
import { isIdentifier, tidyIdentifier } from "./identifier.ts";
import { IdentifierFields } from "./IdentifierFields.tsx";

interface IdentifierDialogProps {
  product: Product;
  /** What a scan has said already. */
  start: DeviceIdentifier | null;
  onClose: () => void;
}

const nothing: Identifier = { scheme: "gs1-gtin", value: "", packLevel: "unit", containers: 1 };

/** Adds a device identifier to a product, by a scan or typed. */
export function IdentifierDialog({ product, start, onClose }: IdentifierDialogProps): ReactNode {
  const t = useTexts();
  const { identifier: texts } = t.catalogue;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [value, setValue] = useState<Identifier>({ ...nothing, ...start });
  const [tried, setTried] = useState(false);
  const tidy = tidyIdentifier(value);
  const add = useWrite("addIdentifier", () => {
    refresh("getProduct", "listProducts");
    announce({ text: texts.added });
    onClose();
  });
  useScanTarget(({ reading }) => {
    const named = reading.kind === "label" ? identifierOf(reading.label.fields) : undefined;
    if (named === undefined) return announce({ text: t.catalogue.product.noIdentifierOnLabel });
    playSound("taken");
    return setValue((before) => ({ ...before, ...named }));
  }, texts.scanTarget);
  function submit(event: FormEvent): void {
    event.preventDefault();
    setTried(true);
    if (isIdentifier(tidy)) add.mutate({ params: { productId: product.id }, body: tidy });
  }
  const wrong = tried && !isIdentifier(tidy) ? texts.notValid : undefined;
  return (
    <Dialog title={texts.title} onClose={onClose} closeLabel={t.common.cancel}>
      <form className="form" onSubmit={submit}>
        <p>{texts.scan}</p>
        <IdentifierFields
          value={value}
          onChange={setValue}
          error={wrong ?? fieldError(add.error, "value") ?? fieldError(add.error, "identifiers")}
        />
        <ProblemNote error={add.error} />
        <Button kind="main" type="submit" busy={add.isPending}>
          {t.common.add}
        </Button>
      </form>
    </Dialog>
  );
}
