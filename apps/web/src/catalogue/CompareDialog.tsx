import { useState, type FormEvent, type ReactNode } from "react";
import { useRefresh, useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { TextField } from "../ui/Field.tsx";
import { fieldError, ProblemNote } from "../ui/States.tsx";
import { sayFact, type FactKey, type Product } from "./facts.ts";

/** A dentist confirms an entry: every fact in one list, to be gone through beside the document. */
export function CompareDialog({
  product,
  onClose,
}: {
  product: Product;
  onClose: () => void;
}): ReactNode {
  const { common, catalogue: t } = useTexts();
  const { language } = useFormats();
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [ifuVersion, setIfuVersion] = useState(product.ifuVersion);
  const confirm = useWrite("confirmProduct", () => {
    refresh("getProduct", "listProducts", "getToday", "getTray", "listTrays");
    announce({ text: t.compare.done(product.name) });
    onClose();
  });
  const keys = (Object.keys(t.facts) as FactKey[]).filter((key) => key !== "ifuVersion");
  function submit(event: FormEvent): void {
    event.preventDefault();
    const { id: productId, version } = product;
    confirm.mutate({ params: { productId }, body: { version, ifuVersion: ifuVersion.trim() } });
  }
  return (
    <Dialog title={t.compare.title(product.name)} onClose={onClose} closeLabel={common.cancel} wide>
      <p>{t.compare.text}</p>
      <dl className="facts">
        {keys.map((key) => (
          <div key={key}>
            <dt>{t.facts[key]}</dt>
            <dd>{sayFact(key, product, { t, language }) ?? t.values.notStated}</dd>
          </div>
        ))}
      </dl>
      <form className="form" onSubmit={submit}>
        <TextField
          label={t.compare.ifuVersion}
          hint={t.form.ifuHint}
          value={ifuVersion}
          required
          maxLength={200}
          autoComplete="off"
          error={fieldError(confirm.error, "ifuVersion")}
          onChange={(event) => setIfuVersion(event.target.value)}
        />
        <ProblemNote error={confirm.error} />
        <Button kind="main" type="submit" busy={confirm.isPending}>
          {t.compare.button}
        </Button>
      </form>
    </Dialog>
  );
}
