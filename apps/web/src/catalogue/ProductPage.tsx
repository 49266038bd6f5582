import { useState, type ReactNode } from "react";
import { useLocation } from "wouter";
import { identifierOf, type DeviceIdentifier } from "#labels";
import { getMessages } from "#texts";
import { call } from "../api/client.ts";
import { useRead } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { textsOf, type Scan } from "../scanner/scan.ts";
import { playSound } from "../scanner/sounds.ts";
import { useHasRole } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button, LinkButton } from "../ui/Button.tsx";
import { UsesLeft } from "./UsesLeft.tsx";
import { Page } from "../ui/Page.tsx";
import { QueryView, useSayError } from "../ui/States.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import { CompareDialog } from "./CompareDialog.tsx";
import { EditProduct } from "./EditProduct.tsx";
import type { Product } from "./facts.ts";
import { FactsByStep } from "./FactsByStep.tsx";
import { IdentifierDialog } from "./IdentifierDialog.tsx";
import { IdentifierTable } from "./IdentifierTable.tsx";
import "./catalogue.css";

/** A product: its facts by step of use, its identifiers, and who compared it. */
export default function ProductPage({ productId }: { productId: string }): ReactNode {
  const query = useRead("getProduct", { params: { productId } });
  const [editing, edit] = useState(false);
  return (
    <QueryView query={query}>
      {(product) =>
        editing ? (
          <EditProduct product={product} onClose={() => edit(false)} />
        ) : (
          <ProductView product={product} onEdit={() => edit(true)} />
        )
      }
    </QueryView>
  );
}

interface ProductViewProps {
  product: Product;
  onEdit: () => void;
}

function ProductView({ product, onEdit }: ProductViewProps): ReactNode {
  const t = useTexts();
  const { language } = useFormats();
  const [comparing, compare] = useState(false);
  const [adding, add] = useState<DeviceIdentifier | "empty" | null>(null);
  const takeScan = useIdentifierScan(product, add);
  useScanTarget(takeScan, t.catalogue.product.scanTarget(product.name));
  const kind = getMessages(language).productKinds[product.kind];
  return (
    <Page
      title={product.name}
      lead={[kind, product.labeler].filter((part) => part !== "").join(" · ")}
      actions={
        <>
          <LinkButton to={paths.shelf({ product: product.id })}>
            {t.catalogue.product.onShelf}
          </LinkButton>
          <Button onClick={onEdit}>{t.catalogue.product.edit}</Button>
        </>
      }
    >
      <Compared product={product} onCompare={() => compare(true)} />
      <FactsByStep product={product} />
      <UsesLeft productId={product.id} />
      <section className="panel">
        <div className="panel-head">
          <h2>{t.catalogue.product.identifiers}</h2>
          <Button className="screen-only" onClick={() => add("empty")}>
            {t.catalogue.product.addIdentifier}
          </Button>
        </div>
        <IdentifierTable identifiers={product.identifiers} />
      </section>
      {comparing ? <CompareDialog product={product} onClose={() => compare(false)} /> : null}
      {adding === null ? null : (
        <IdentifierDialog
          product={product}
          start={adding === "empty" ? null : adding}
          onClose={() => add(null)}
        />
      )}
    </Page>
  );
}

function Compared({ product, onCompare }: { product: Product; onCompare: () => void }): ReactNode {
  const t = useTexts();
  const { dateTime } = useFormats();
  const mayConfirm = useHasRole("dentist");
  const { confirmed, ifuVersion } = product;
  const texts = t.catalogue.product;
  return (
    <div className={confirmed === null ? "compared caution" : "compared clear"}>
      <VerdictShape verdict={confirmed === null ? "caution" : "clear"} />
      <div>
        <p className="compared-words">
          {confirmed === null ? texts.open : texts.compared(confirmed.by, dateTime(confirmed.at))}
        </p>
        {ifuVersion === "" ? null : <p>{texts.ifu(ifuVersion)}</p>}
        {confirmed === null && !mayConfirm ? <p>{texts.openDentist}</p> : null}
      </div>
      {mayConfirm ? (
        <Button kind={confirmed === null ? "main" : "plain"} onClick={onCompare}>
          {texts.compare}
        </Button>
      ) : null}
    </div>
  );
}

/** A scan on a product's page: an identifier to be added, unless it has a product already. */
function useIdentifierScan(
  product: Product,
  onNew: (identifier: DeviceIdentifier) => void,
): (scan: Scan) => void {
  const texts = useTexts().catalogue.product;
  const announce = useAnnounce();
  const sayError = useSayError();
  const [, navigate] = useLocation();
  return (scan) => {
    const { reading } = scan;
    if (reading.kind !== "label") return announce({ text: texts.ownCode, tone: "look" });
    const named = identifierOf(reading.label.fields);
    if (named === undefined) return announce({ text: texts.noIdentifierOnLabel, tone: "look" });
    call("readScan", { body: textsOf(scan) }).then(
      ({ product: found }) => {
        playSound("taken");
        if (found === null) onNew(named);
        else if (found.id === product.id) announce({ text: texts.sameProduct(product.name) });
        else {
          const action = { label: texts.openIt, act: () => navigate(paths.product(found.id)) };
          announce({ text: texts.otherProduct(found.name), tone: "look", action });
        }
      },
      (error: unknown) => announce({ text: sayError(error), tone: "bad" }),
    );
    return undefined;
  };
}
