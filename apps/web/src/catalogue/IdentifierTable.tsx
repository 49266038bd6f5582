import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Table } from "../ui/Table.tsx";
import type { Identifier } from "./facts.ts";

/** The device identifiers of a product, one per level of packing. */
export function IdentifierTable({
  identifiers,
}: {
  identifiers: readonly Identifier[];
}): ReactNode {
  const { product, identifier } = useTexts().catalogue;
  if (identifiers.length === 0) return <p>{product.noIdentifiers}</p>;
  return (
    <Table
      caption={product.identifiers}
      rows={identifiers}
      rowKey={({ scheme, value }) => `${scheme} ${value}`}
      columns={[
        {
          key: "value",
          label: identifier.value,
          show: ({ value }) => <span className="code">{value}</span>,
        },
        {
          key: "scheme",
          label: identifier.scheme,
          show: ({ scheme }) => identifier.schemes[scheme],
        },
        {
          key: "packLevel",
          label: identifier.packLevel,
          show: ({ packLevel }) => identifier.packLevels[packLevel],
        },
        {
          key: "containers",
          label: identifier.containers,
          numeric: true,
          show: ({ containers }) => containers,
        },
      ]}
    />
  );
}
