import { useQueryClient } from "@tanstack/react-query";
import { useState, type ReactNode } from "react";
import { call } from "../api/client.ts";
import { ApiProblem } from "../api/problem.ts";
import { keyOf, useRefresh, useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Page } from "../ui/Page.tsx";
import { listChanged, type Product, type ProductInput } from "./facts.ts";
import { ProductForm } from "./ProductForm.tsx";

interface EditProductProps {
  product: Product;
  onClose: () => void;
}

/**
 * Changes a product from the version the form began with. Where somebody else was faster, what was
 * typed stays, and what they changed is shown beside it.
 */
export function EditProduct({ product, onClose }: EditProductProps): ReactNode {
  const t = useTexts();
  const announce = useAnnounce();
  const queries = useQueryClient();
  const refresh = useRefresh();
  // Not the newest the page has fetched: what the person saw when the form was opened.
  const [base, setBase] = useState(product);
  const [theirs, setTheirs] = useState<Product | null>(null);
  const input = { params: { productId: product.id } };
  const save = useWrite("changeProduct", (saved) => {
    queries.setQueryData(keyOf("getProduct", input), saved);
    refresh("listProducts", "getToday");
    announce({ text: t.catalogue.form.saved(saved.name) });
    onClose();
  });
  const put = (values: ProductInput) =>
    save.mutate(
      { ...input, body: { ...values, version: (theirs ?? base).version } },
      {
        onError: (error) => {
          const isBehind = error instanceof ApiProblem && error.code === "product-changed";
          if (isBehind) void call("getProduct", input).then(setTheirs);
        },
      },
    );
  function takeTheirs(): void {
    if (theirs === null) return;
    queries.setQueryData(keyOf("getProduct", input), theirs);
    setBase(theirs);
    setTheirs(null);
    save.reset();
  }
  return (
    <Page title={t.catalogue.form.titleEdit(base.name)}>
      <section className="panel">
        <ProductForm
          key={base.version}
          start={base}
          button={theirs === null ? t.common.save : t.catalogue.form.saveOver}
          busy={save.isPending}
          error={theirs === null ? save.error : null}
          onSave={put}
          onCancel={onClose}
        >
          <p className="hint">{t.catalogue.form.unconfirms}</p>
          {theirs === null ? null : (
            <ChangedMeanwhile before={base} after={theirs} onTake={takeTheirs} />
          )}
        </ProductForm>
      </section>
    </Page>
  );
}

interface ChangedMeanwhileProps {
  before: Product;
  after: Product;
  onTake: () => void;
}

function ChangedMeanwhile({ before, after, onTake }: ChangedMeanwhileProps): ReactNode {
  const { catalogue: t } = useTexts();
  const { language } = useFormats();
  const changed = listChanged({ before, after }, { t, language });
  return (
    <div className="problem" role="alert">
      <p className="problem-title">{t.form.changedMeanwhile}</p>
      {changed.length === 0 ? <p>{t.form.changedNothing}</p> : null}
      <ul>
        {changed.map(({ key, from, to }) => (
          <li key={key}>{t.form.changedWhat(t.facts[key], from, to)}</li>
        ))}
      </ul>
      <p>{t.form.yoursKept}</p>
      <Button onClick={onTake}>{t.form.takeTheirs}</Button>
    </div>
  );
}
