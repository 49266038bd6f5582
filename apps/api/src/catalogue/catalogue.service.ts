import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import type { Identifier, ProductInput, ProductView, TechniqueLine } from "#contracts/catalogue";
import { stepViews } from "./step-views.ts";
import { isValidGtin } from "#labels";
import type { ProductRow, TechniqueRow } from "../db/tables.ts";
import { inCommand, inRead, type Tx } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import type { Answer, Call } from "../http/operation.ts";
import { notFound, Problem } from "../http/problem.ts";
import * as store from "./catalogue.store.ts";

@Injectable()
export class CatalogueService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  listProducts(call: Call<"listProducts">): Promise<Answer<"listProducts">> {
    return inRead(this.db, call, async (tx) => {
      const ids = await store.listProductIds(tx, call.query.kind, call.query.q);
      return {
        products: await store.readProducts(
          tx,
          ids.map(({ id }) => id),
        ),
      };
    });
  }

  getProduct(call: Call<"getProduct">): Promise<ProductView> {
    return inRead(this.db, call, (tx) => getProduct(tx, call.params.productId));
  }

  addProduct(call: Call<"addProduct">): Promise<ProductView> {
    const { identifiers, ...input } = call.body;
    checkIdentifiers(identifiers);
    return inCommand(this.db, call, async (tx) => {
      const id = newId();
      await refuseUnknownSystem(tx, input.systemId);
      await store.insertProduct(tx, {
        ...columnsOf(input),
        id,
        organisationId: tx.actor.organisationId,
        version: 1,
        createdAt: tx.at,
      });
      await store.insertIdentifiers(tx, rowsOf(tx, id, identifiers));
      tx.audit("product-added", `product:${id}`, call.body);
      return getProduct(tx, id);
    });
  }

  changeProduct(call: Call<"changeProduct">): Promise<ProductView> {
    const { version, ...input } = call.body;
    const id = call.params.productId;
    return inCommand(this.db, call, async (tx) => {
      const before = await getProduct(tx, id);
      await refuseUnknownSystem(tx, input.systemId);
      const change = { ...columnsOf(input), version: version + 1 };
      if (!(await store.updateProduct(tx, { id, version }, change))) throw changedMeanwhile();
      tx.audit("product-changed", `product:${id}`, { before, after: input });
      return getProduct(tx, id);
    });
  }

  confirmProduct(call: Call<"confirmProduct">): Promise<ProductView> {
    const { version, ifuVersion } = call.body;
    const id = call.params.productId;
    return inCommand(this.db, call, async (tx) => {
      await getProduct(tx, id);
      const confirmed = await store.updateProduct(
        tx,
        { id, version },
        {
          ifuVersion,
          confirmedVersion: version,
          confirmedBy: tx.actor.personId,
          confirmedAt: tx.at,
        },
      );
      if (!confirmed) throw changedMeanwhile();
      tx.audit("product-confirmed", `product:${id}`, { version, ifuVersion });
      return getProduct(tx, id);
    });
  }

  addIdentifier(call: Call<"addIdentifier">): Promise<ProductView> {
    checkIdentifiers([call.body], "value");
    const id = call.params.productId;
    return inCommand(this.db, call, async (tx) => {
      await getProduct(tx, id);
      await store.insertIdentifiers(tx, rowsOf(tx, id, [call.body]));
      tx.audit("identifier-added", `product:${id}`, call.body);
      return getProduct(tx, id);
    });
  }

  listSystems(call: Call<"listSystems">): Promise<Answer<"listSystems">> {
    return inRead(this.db, call, async (tx) => ({
      systems: (await store.listSystems(tx)).map(({ id, name }) => ({ id, name })),
    }));
  }

  addSystem(call: Call<"addSystem">): Promise<Answer<"addSystem">> {
    return inCommand(this.db, call, async (tx) => {
      const system = { id: newId(), name: call.body.name };
      await store.insertSystem(tx, system);
      tx.audit("system-added", `system:${system.id}`, call.body);
      return system;
    });
  }

  listTechniques(call: Call<"listTechniques">): Promise<Answer<"listTechniques">> {
    return inRead(this.db, call, async (tx) => ({
      techniques: (await store.listTechniques(tx)).map(techniqueLine),
    }));
  }
}

async function getProduct(tx: Tx, id: string): Promise<ProductView> {
  const [product] = await store.readProducts(tx, [id]);
  if (!product) throw notFound("product");
  return product;
}

/** A foreign key looks past row security, so another organisation's system would do. */
async function refuseUnknownSystem(tx: Tx, id: string | null): Promise<void> {
  if (id !== null && !(await store.hasSystem(tx, id))) throw notFound("bonding system");
}

const techniqueLine = (row: TechniqueRow): TechniqueLine => ({
  id: row.id,
  key: row.key,
  name: row.name,
  version: row.version,
  visit: row.visit,
  starter: row.starter,
  steps: stepViews(row.steps),
  confirmedAt: row.confirmedAt?.toISOString() ?? null,
});

function columnsOf({ inUseLife, ...input }: ProductInput): Partial<ProductRow> {
  return {
    ...input,
    inUseCount: inUseLife?.count ?? null,
    inUseUnit: inUseLife?.unit ?? null,
  };
}

const rowsOf = (tx: Tx, productId: string, identifiers: readonly Identifier[]) =>
  identifiers.map((identifier) => ({
    ...identifier,
    productId,
    organisationId: tx.actor.organisationId,
  }));

function checkIdentifiers(identifiers: readonly Identifier[], field = "identifiers"): void {
  for (const { scheme, value } of identifiers) {
    if (scheme !== "gs1-gtin" || (value.length === 14 && isValidGtin(value))) continue;
    throw new Problem(
      "invalid-request",
      `${value} is no GTIN of 14 digits with a right check digit. Scan the label or type it again.`,
      { errors: [{ path: `/body/${field}`, message: "GTIN check digit" }] },
    );
  }
}

const changedMeanwhile = () =>
  new Problem(
    "product-changed",
    "Somebody changed this entry meanwhile. Reload it, look at the difference, and decide again.",
  );
