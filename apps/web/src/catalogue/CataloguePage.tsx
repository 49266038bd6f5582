import type { ReactNode } from "react";
import { Link, useLocation } from "wouter";
import { productKinds } from "#domain";
import { identifierOf } from "#labels";
import { getMessages } from "#texts";
import { call } from "../api/client.ts";
import { useRead } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { textsOf, type Scan } from "../scanner/scan.ts";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { LinkButton } from "../ui/Button.tsx";
import { Select, TextField } from "../ui/Field.tsx";
import { Page } from "../ui/Page.tsx";
import { EmptyState, QueryView, useSayError } from "../ui/States.tsx";
import { Table, type Column } from "../ui/Table.tsx";
import { useFilter, type Filter } from "../ui/useFilter.ts";
import { CatalogueParts } from "./CatalogueParts.tsx";
import { ComparedMark } from "./ComparedMark.tsx";
import type { Product } from "./facts.ts";
import "./catalogue.css";

/** The products, by name; the filter is in the address. A scan opens or registers a product. */
export default function CataloguePage(): ReactNode {
  const t = useTexts();
  const filter = useFilter();
  const openScanned = useOpenScanned();
  useScanTarget(openScanned, t.catalogue.scanTarget);
  const kind = productKinds.find((one) => one === filter.get("kind"));
  const q = filter.get("q").trim();
  const query = useRead("listProducts", {
    query: { ...(kind ? { kind } : {}), ...(q ? { q } : {}) },
  });
  const compared = filter.get("compared");
  return (
    <Page
      title={t.catalogue.title}
      lead={t.catalogue.lead}
      actions={
        <LinkButton to={paths.newProduct()} kind="main">
          {t.catalogue.list.add}
        </LinkButton>
      }
    >
      <CatalogueParts />
      <ProductFilter filter={filter} />
      <QueryView query={query}>
        {({ products }) => (
          <ProductTable
            products={products.filter(
              ({ confirmed }) => compared === "" || (confirmed !== null) === (compared === "yes"),
            )}
            filtered={kind !== undefined || q !== "" || compared !== ""}
          />
        )}
      </QueryView>
    </Page>
  );
}

function ProductFilter({ filter }: { filter: Filter }): ReactNode {
  const t = useTexts();
  const { language } = useFormats();
  const kindNames = getMessages(language).productKinds;
  const { list } = t.catalogue;
  return (
    <search className="sieve">
      <TextField
        label={list.search}
        type="search"
        value={filter.get("q")}
        onChange={(event) => filter.set({ q: event.target.value })}
      />
      <Select
        label={list.kind}
        value={filter.get("kind")}
        onChange={(event) => filter.set({ kind: event.target.value })}
      >
        <option value="">{list.anyKind}</option>
        {productKinds.map((one) => (
          <option key={one} value={one}>
            {kindNames[one]}
          </option>
        ))}
      </Select>
      <Select
        label={list.confirmedOnly}
        value={filter.get("compared")}
        onChange={(event) => filter.set({ compared: event.target.value })}
      >
        <option value="">{list.any}</option>
        <option value="yes">{list.yes}</option>
        <option value="no">{list.no}</option>
      </Select>
    </search>
  );
}

interface ProductTableProps {
  products: readonly Product[];
  filtered: boolean;
}

function ProductTable({ products, filtered }: ProductTableProps): ReactNode {
  const t = useTexts();
  const columns = useProductColumns();
  if (products.length === 0) {
    return <EmptyState text={filtered ? t.states.noMatch : t.catalogue.list.empty} />;
  }
  return (
    <Table
      caption={t.catalogue.parts.products}
      columns={columns}
      rows={products}
      rowKey={({ id }) => id}
      exportName="catalogue"
    />
  );
}

function useProductColumns(): readonly Column<Product>[] {
  const t = useTexts();
  const { language } = useFormats();
  const { columns } = t.catalogue.list;
  const { productKinds: kindNames } = getMessages(language);
  const of = (key: string, label: string, value: (product: Product) => string) => ({
    key,
    label,
    value,
    show: value as (product: Product) => ReactNode,
  });
  return [
    {
      ...of("name", columns.name, ({ name }) => name),
      show: ({ id, name }) => (
        <Link to={paths.product(id)} className="name-link">
          {name}
        </Link>
      ),
    },
    of("kind", columns.kind, ({ kind }) => kindNames[kind]),
    of("system", columns.system, ({ systemName }) => systemName ?? ""),
    of("labeler", columns.labeler, ({ labeler }) => labeler),
    {
      ...of("identifiers", columns.identifiers, ({ identifiers }) =>
        identifiers.map(({ value }) => value).join(" "),
      ),
      show: ({ identifiers }) => (
        <span className="code identifiers">
          {identifiers.map(({ scheme, value }) => (
            <span key={`${scheme} ${value}`}>{value}</span>
          ))}
        </span>
      ),
    },
    {
      ...of("compared", columns.compared, ({ confirmed }) => confirmed?.by ?? ""),
      show: ({ confirmed }) => <ComparedMark by={confirmed?.by ?? null} />,
    },
  ];
}

/** A scan in the catalogue: the product it names, or the form that registers it. */
function useOpenScanned(): (scan: Scan) => void {
  const t = useTexts();
  const announce = useAnnounce();
  const sayError = useSayError();
  const [, navigate] = useLocation();
  return (scan) => {
    const { reading } = scan;
    const named = reading.kind === "label" ? identifierOf(reading.label.fields) : undefined;
    call("readScan", { body: textsOf(scan) }).then(
      ({ product }) => {
        playSound("taken");
        if (product !== null) navigate(paths.product(product.id));
        else if (named !== undefined) navigate(paths.newProduct(named));
        else announce({ text: t.catalogue.product.noIdentifierOnLabel, tone: "look" });
      },
      (error: unknown) => {
        playSound("look");
        announce({ text: sayError(error), tone: "bad" });
      },
    );
  };
}
