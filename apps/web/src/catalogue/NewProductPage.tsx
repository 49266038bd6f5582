import { useState, type ReactNode } from "react";
import { useLocation, useSearchParams } from "wouter";
import { identifierOf } from "#labels";
import { useRefresh } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Page } from "../ui/Page.tsx";
import type { Identifier } from "./facts.ts";
import { RegisterForm, type Draft } from "./RegisterForm.tsx";
import "./catalogue.css";

const schemes = ["gs1-gtin", "hibc", "ppn"] as const;

function readDraft(search: URLSearchParams): Draft {
  const value = search.get("identifier") ?? "";
  const scheme = schemes.find((one) => one === search.get("scheme")) ?? "gs1-gtin";
  return value === "" ? [] : [{ scheme, value, packLevel: "unit", containers: 1 }];
}

/** Registers a product; the address may bring the identifier of an unknown label. */
export default function NewProductPage(): ReactNode {
  const t = useTexts();
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [, navigate] = useLocation();
  const [search] = useSearchParams();
  const [identifiers, setIdentifiers] = useState<Draft>(() => readDraft(search));
  useScanTarget(({ reading }) => {
    const named = reading.kind === "label" ? identifierOf(reading.label.fields) : undefined;
    if (named === undefined) {
      playSound("look");
      return announce({ text: t.catalogue.product.noIdentifierOnLabel, tone: "look" });
    }
    playSound("taken");
    const added: Identifier = { ...named, packLevel: "unit", containers: 1 };
    return setIdentifiers((before) => [
      ...before.filter(({ value }) => value !== "" && value !== named.value),
      added,
    ]);
  }, t.catalogue.identifier.scanTarget);
  return (
    <Page title={t.catalogue.form.titleNew}>
      <section className="panel">
        <RegisterForm
          identifiers={identifiers}
          onIdentifiers={setIdentifiers}
          button={t.common.save}
          onCancel={() => navigate(paths.catalogue())}
          onRegistered={(product) => {
            refresh("listProducts", "getToday");
            announce({ text: t.catalogue.form.registered(product.name) });
            navigate(paths.product(product.id));
          }}
        />
      </section>
    </Page>
  );
}
