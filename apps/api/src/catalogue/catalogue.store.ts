import { In } from "typeorm";
import type { ProductView } from "#contracts/catalogue";
import { statement, type Tx } from "../db/transaction.ts";
import { BondingSystemRow, ProductIdentifierRow, ProductRow, TechniqueRow } from "../db/tables.ts";

export interface IdentifiedProduct {
  product_id: string;
  name: string;
  kind: ProductRow["kind"];
  pack_level: string;
  containers: number;
}
const byIdentifier = statement<IdentifiedProduct>(
  "find-product-by-identifier",
  `select p.id as product_id, p.name, p.kind, i.pack_level, i.containers
   from product_identifier i join product p on p.id = i.product_id
   where i.organisation_id = $1 and i.scheme = $2 and i.value = $3`,
);
export async function findProductByIdentifier(
  tx: Tx,
  identifier: { scheme: string; value: string },
): Promise<IdentifiedProduct | undefined> {
  const { organisationId } = tx.actor;
  return (await tx.rows(byIdentifier, [organisationId, identifier.scheme, identifier.value]))[0];
}

const listed = statement<{ id: string }>(
  "list-product-ids",
  `select id from product
   where organisation_id = $1 and ($2::text is null or kind = $2)
     and ($3::text is null or position(lower($3) in lower(name || ' ' || labeler)) > 0)
   order by name, id`,
);
export const listProductIds = (tx: Tx, kind: string | undefined, text: string | undefined) =>
  tx.rows(listed, [tx.actor.organisationId, kind ?? null, text ?? null]);

/** Products in the order of their names, with identifiers, system and who confirmed them. */
export async function readProducts(tx: Tx, ids: readonly string[]): Promise<ProductView[]> {
  const rows = await tx.manager.find(ProductRow, {
    where: { id: In(ids) },
    order: { name: "ASC", id: "ASC" },
  });
  const identifiers = await tx.manager.find(ProductIdentifierRow, {
    where: { organisationId: tx.actor.organisationId, productId: In(ids) },
    order: { scheme: "ASC", value: "ASC" },
  });
  const systems = await listSystems(tx);
  const names = await tx.rows(confirmers, [ids]);
  return rows.map((row) => {
    const confirmer = names.find((each) => each.id === row.confirmedBy);
    const confirmed = row.confirmedVersion === row.version && confirmer && row.confirmedAt;
    return {
      ...productFields(row),
      id: row.id,
      version: row.version,
      systemName: systems.find((system) => system.id === row.systemId)?.name ?? null,
      identifiers: identifiers
        .filter((each) => each.productId === row.id)
        .map(({ scheme, value, packLevel, containers }) => ({
          scheme,
          value,
          packLevel,
          containers,
        })),
      confirmed: confirmed ? { by: confirmer.name, at: row.confirmedAt!.toISOString() } : null,
    };
  });
}
const confirmers = statement<{ id: string; name: string }>(
  "list-confirmers",
  `select distinct e.id, e.display_name as name
   from product p join person e on e.id = p.confirmed_by where p.id = any($1)`,
);

function productFields(row: ProductRow) {
  const { inUseCount: count, inUseUnit: unit } = row;
  return {
    name: row.name,
    labeler: row.labeler,
    kind: row.kind,
    solvents: row.solvents,
    strategy: row.strategy,
    systemId: row.systemId,
    contents: row.contents,
    inUseLife: count !== null && unit !== null ? { count, unit } : null,
    applicationSeconds: row.applicationSeconds,
    airDrySeconds: row.airDrySeconds,
    cureSeconds: row.cureSeconds,
    radiantExposureJCm2: row.radiantExposureJCm2,
    warmUpMinutes: row.warmUpMinutes,
    dropLifeSeconds: row.dropLifeSeconds,
    fillerPercent: row.fillerPercent,
    modulusGpa: row.modulusGpa,
    excursionLevel: row.excursionLevel,
    storageMinC: row.storageMinC,
    storageMaxC: row.storageMaxC,
    singleUse: row.singleUse,
    usesPerContainer: row.usesPerContainer,
    ifuVersion: row.ifuVersion,
  };
}

export const insertProduct = (tx: Tx, row: Partial<ProductRow>) =>
  tx.manager.insert(ProductRow, row);
export const insertIdentifiers = (tx: Tx, rows: Partial<ProductIdentifierRow>[]) =>
  rows.length === 0 ? undefined : tx.manager.insert(ProductIdentifierRow, rows);

/** Changes an entry made from `version`; false where somebody else was faster. */
export async function updateProduct(
  tx: Tx,
  which: { id: string; version: number },
  change: Partial<ProductRow>,
): Promise<boolean> {
  const { organisationId } = tx.actor;
  const done = await tx.manager.update(ProductRow, { ...which, organisationId }, change);
  return done.affected === 1;
}

export const listSystems = (tx: Tx) =>
  tx.manager.find(BondingSystemRow, {
    where: { organisationId: tx.actor.organisationId },
    order: { name: "ASC" },
  });
export const hasSystem = (tx: Tx, id: string) =>
  tx.manager.existsBy(BondingSystemRow, { organisationId: tx.actor.organisationId, id });
export const insertSystem = (tx: Tx, row: Pick<BondingSystemRow, "id" | "name">) =>
  tx.manager.insert(BondingSystemRow, { ...row, organisationId: tx.actor.organisationId });

export const listTechniques = (tx: Tx) =>
  tx.manager.find(TechniqueRow, {
    where: { organisationId: tx.actor.organisationId, retired: false },
    order: { visit: "DESC", name: "ASC", version: "DESC" },
  });
export const findTechnique = (tx: Tx, id: string) =>
  tx.manager.findOneBy(TechniqueRow, { organisationId: tx.actor.organisationId, id });

const nameOf = statement<{ name: string }>(
  "find-product-name",
  "select name from product where organisation_id = $1 and id = $2",
);
export async function findProductName(tx: Tx, id: string): Promise<string | undefined> {
  return (await tx.rows(nameOf, [tx.actor.organisationId, id]))[0]?.name;
}

const byText = statement<{ product_id: string }>(
  "find-product-by-identifier-text",
  `select product_id from product_identifier
   where organisation_id = $1 and value in ($2, lpad($2, 14, '0')) limit 1`,
);
/** By an identifier as a person has it before them; a shorter GTIN is filled up to 14 digits. */
export async function findProductByIdentifierText(tx: Tx, text: string) {
  return (await tx.rows(byText, [tx.actor.organisationId, text]))[0];
}

export const insertTechnique = (
  tx: Tx,
  one: Pick<TechniqueRow, "id" | "key" | "name" | "visit" | "steps" | "starter">,
) =>
  tx.manager.insert(TechniqueRow, {
    ...one,
    organisationId: tx.actor.organisationId,
    version: 1,
    retired: false,
    createdAt: tx.at,
  });
