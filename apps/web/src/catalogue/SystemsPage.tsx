import { useState, type FormEvent, type ReactNode } from "react";
import { Link } from "wouter";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { TextField } from "../ui/Field.tsx";
import { Page } from "../ui/Page.tsx";
import { EmptyState, fieldError, ProblemNote, QueryView } from "../ui/States.tsx";
import { Table } from "../ui/Table.tsx";
import { CatalogueParts } from "./CatalogueParts.tsx";
import "./catalogue.css";

/** The bonding systems and the products in each. */
export default function SystemsPage(): ReactNode {
  const t = useTexts();
  const systems = useRead("listSystems");
  const products = useRead("listProducts", {}, { staleMs: 60_000 });
  const { systems: texts } = t.catalogue;
  const ofSystem = (id: string) =>
    products.data?.products.filter(({ systemId }) => systemId === id) ?? [];
  return (
    <Page title={t.catalogue.title} tabTitle={t.catalogue.parts.systems} lead={texts.lead}>
      <CatalogueParts />
      <AddSystem />
      <QueryView query={systems}>
        {({ systems: found }) =>
          found.length === 0 ? (
            <EmptyState text={texts.empty} />
          ) : (
            <Table
              caption={t.catalogue.parts.systems}
              rows={found}
              rowKey={({ id }) => id}
              columns={[
                { key: "name", label: texts.name, show: ({ name }) => <strong>{name}</strong> },
                {
                  key: "products",
                  label: texts.products,
                  show: ({ id }) => <ProductLinks products={ofSystem(id)} />,
                },
              ]}
            />
          )
        }
      </QueryView>
    </Page>
  );
}

function ProductLinks({
  products,
}: {
  products: readonly { id: string; name: string }[];
}): ReactNode {
  const t = useTexts();
  if (products.length === 0) return <span className="soft">{t.catalogue.systems.none}</span>;
  return (
    <span className="product-links">
      {products.map(({ id, name }) => (
        <Link key={id} to={paths.product(id)} className="name-link">
          {name}
        </Link>
      ))}
    </span>
  );
}

function AddSystem(): ReactNode {
  const { systems: texts } = useTexts().catalogue;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [name, setName] = useState("");
  const add = useWrite("addSystem", (system) => {
    refresh("listSystems");
    announce({ text: texts.added(system.name) });
    setName("");
  });
  function submit(event: FormEvent): void {
    event.preventDefault();
    add.mutate({ body: { name: name.trim() } });
  }
  return (
    <form className="sieve" onSubmit={submit}>
      <TextField
        label={texts.name}
        value={name}
        required
        maxLength={200}
        autoComplete="off"
        error={fieldError(add.error, "name")}
        onChange={(event) => setName(event.target.value)}
      />
      <Button type="submit" busy={add.isPending}>
        {texts.add}
      </Button>
      <ProblemNote error={add.error} />
    </form>
  );
}
