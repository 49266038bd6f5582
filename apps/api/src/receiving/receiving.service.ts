import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { civilDateAt, computeUseByEnd, daysBetween, makeContainerCode } from "#domain";
import { lotLookAlikeKey, normaliseLot } from "#labels";
import type { DeliveryLineView, DeliveryView, Reading } from "#contracts/stock";
import { findProductByIdentifier, type IdentifiedProduct } from "../catalogue/catalogue.store.ts";
import { inCommand, inRead, type Tx } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import type { Answer, Call } from "../http/operation.ts";
import { notFound, Problem } from "../http/problem.ts";
import { useByOf } from "../stock/container-row.ts";
import { insertReceived } from "../stock/movements.store.ts";
import { findLocation, getPlaceOfKind } from "../stock/stock.store.ts";
import { readLabels } from "./read-labels.ts";
import { getCheckSettings } from "../practice/check-settings.store.ts";
import * as store from "./receiving.store.ts";

/** More than any practice receives of one lot at once: a typing error, or a wrong pack. */
const mostContainers = 10_000;

type UseBy = Reading["useBy"];
interface Pack {
  product: IdentifiedProduct;
  lot: string;
  serial: string | null;
  useBy: UseBy;
}

@Injectable()
export class ReceivingService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  listDeliveries(call: Call<"listDeliveries">): Promise<Answer<"listDeliveries">> {
    return inRead(this.db, call, async (tx) => ({
      deliveries: (await store.listDeliveries(tx)).map((row) => ({
        ...deliveryHead(row),
        lines: row.lines,
      })),
    }));
  }

  openDelivery(call: Call<"openDelivery">): Promise<DeliveryView> {
    return inCommand(this.db, call, async (tx) => {
      const id = newId();
      const told = { ...call.body, receivedBy: tx.actor.personId, receivedAt: tx.at };
      await store.insertDelivery(tx, { id, ...told });
      tx.audit("delivery-opened", `delivery:${id}`, call.body);
      return readDelivery(tx, id);
    });
  }

  getDelivery(call: Call<"getDelivery">): Promise<DeliveryView> {
    return inRead(this.db, call, (tx) => readDelivery(tx, call.params.deliveryId));
  }

  receive(call: Call<"receive">): Promise<DeliveryLineView> {
    const { body, params } = call;
    return inCommand(this.db, call, async (tx) => {
      if (!(await store.findDelivery(tx, params.deliveryId))) throw notFound("delivery");
      const pack = await readPack(tx, body);
      await refuseAtTheDoor(tx, pack);
      const place = await findLocation(tx, body.locationId);
      if (!place || place.outside) throw notFound("place");
      const containers = body.quantity * pack.product.containers;
      if (containers > mostContainers) {
        const message = `at most ${mostContainers} containers in one line, not ${containers}`;
        const errors = [{ path: "/body/quantity", message }];
        throw new Problem("invalid-request", `Receive ${message}. Correct the quantity.`, {
          errors,
        });
      }
      if (pack.serial !== null && containers > 1) {
        throw new Problem(
          "invalid-request",
          "A serial number names one container. Scan each one, with quantity 1.",
          {
            errors: [{ path: "/body/quantity", message: "1, since the label has a serial number" }],
          },
        );
      }
      const lineId = await bookIn(tx, pack, {
        deliveryId: params.deliveryId,
        locationId: place.id,
        containers,
        barcode: [body.barcodes, body.packLabels ?? []].flat(2).join("\n"),
      });
      tx.audit("received", `delivery-line:${lineId}`, { ...body, ...params });
      const line = (await readDelivery(tx, params.deliveryId)).lines.find(
        ({ id }) => id === lineId,
      );
      return line!;
    });
  }
}

/** What the label says, with what a person typed where the label says nothing. */
async function readPack(tx: Tx, body: Call<"receive">["body"]): Promise<Pack> {
  const reading = await readLabels(tx, body);
  if (!reading.identifier) {
    throw new Problem(
      "label-incomplete",
      "The label names no product. Scan the other code of the pack as well.",
      { reading, lacks: ["identifier"] },
    );
  }
  const product = await findProductByIdentifier(tx, reading.identifier);
  if (!product) {
    throw new Problem(
      "unknown-identifier",
      `${reading.identifier.value} is not in the catalogue. Register the product, then scan again.`,
      { reading },
    );
  }
  const lot = agreeing("lot", reading.lot, body.lot);
  const typedUseBy = body.useBy ? ({ date: body.useBy, precision: "day" } as const) : undefined;
  agreeing("useBy", reading.useBy?.date ?? null, body.useBy);
  const known = lot === null ? undefined : await store.findLot(tx, product.product_id, lot);
  const useBy = reading.useBy ?? typedUseBy ?? (known ? useByOf(known) : null);
  const lacks = [lot === null && "lot", useBy === null && !body.acceptWithoutUseBy && "useBy"];
  const missing = lacks.filter((each) => each !== false);
  if (lot === null || missing.length > 0) {
    throw new Problem(
      "label-incomplete",
      "This code carries no lot or use-by date. Scan the pack's other code, or type what is printed.",
      { reading, lacks: missing },
    );
  }
  return { product, lot, serial: reading.serial, useBy };
}

/** What was typed may fill a gap, never contradict the label. */
function agreeing(field: string, read: string | null, typed: string | undefined): string | null {
  if (read !== null && typed !== undefined && typed !== read) {
    throw new Problem(
      "invalid-request",
      `The label says ${read}, but ${typed} was typed. Look at the pack and leave the field empty.`,
      { errors: [{ path: `/body/${field}`, message: `the label says ${read}` }] },
    );
  }
  return read ?? typed ?? null;
}

async function refuseAtTheDoor(tx: Tx, { product, lot, useBy }: Pack): Promise<void> {
  const today = civilDateAt(tx.at.toISOString(), tx.actor.timeZone);
  if (useBy && computeUseByEnd(useBy) < today) {
    throw new Problem(
      "expired-delivery",
      `${product.name}, lot ${lot}, was to be used by ${useBy.date}. Do not put it away: ` +
        "set it aside and return it to the supplier.",
      { useBy: useBy.date, today },
    );
  }
  const [withdrawal] = await store.listCoveringWithdrawals(tx, product.product_id, lot);
  if (withdrawal) {
    throw new Problem(
      "withdrawn-delivery",
      `${product.name}, lot ${lot}, is withdrawn (${withdrawal.reference}). Do not put it away: ` +
        "set it aside, tell the office, and return it to the supplier.",
      { withdrawalId: withdrawal.id, reference: withdrawal.reference },
    );
  }
}

/** The lot, the line, its containers, and the movements that bring them in from the supplier. */
async function bookIn(
  tx: Tx,
  pack: Pack,
  told: { deliveryId: string; locationId: string; containers: number; barcode: string },
): Promise<string> {
  const productId = pack.product.product_id;
  const lotId = await lotFor(tx, pack);
  const supplier = await getPlaceOfKind(tx, "supplier");
  const lineId = newId();
  const first = await store.takeContainerNumbers(tx, told.containers);
  const containers = Array.from({ length: told.containers }, (_, index) => ({
    id: newId(),
    code: makeContainerCode(first + index),
  }));
  const { serial } = pack;
  await store.insertLine(tx, { ...told, id: lineId, lotId, serial });
  await store.insertContainers(tx, {
    lotId,
    productId,
    lineId,
    serial,
    locationId: supplier.id,
    containers,
  });
  await insertReceived(tx, {
    lotId,
    fromLocationId: supplier.id,
    toLocationId: told.locationId,
    movementIds: containers.map(() => newId()),
    containerIds: containers.map(({ id }) => id),
  });
  return lineId;
}

async function lotFor(tx: Tx, { product, lot, useBy }: Pack): Promise<string> {
  const productId = product.product_id;
  await store.insertLot(tx, {
    id: newId(),
    productId,
    lot,
    plain: normaliseLot(lot),
    look: lotLookAlikeKey(lot),
    use_by: useBy?.date ?? null,
    use_by_precision: useBy?.precision ?? null,
  });
  const stored = await store.findLot(tx, productId, lot);
  const storedUseBy = useByOf(stored!);
  if ((storedUseBy?.date ?? null) !== (useBy?.date ?? null)) {
    throw new Problem(
      "use-by-conflict",
      `Lot ${lot} of ${product.name} is here with use-by date ${storedUseBy?.date ?? "none"}, ` +
        `this label says ${useBy?.date ?? "none"}. Compare both packs and ask the supplier.`,
      { stored: storedUseBy?.date ?? null, label: useBy?.date ?? null },
    );
  }
  return stored!.id;
}

const deliveryHead = (row: store.DeliveryFacts) => ({
  id: row.id,
  supplier: row.supplier,
  note: row.note,
  receivedAt: row.received_at.toISOString(),
  receivedBy: row.received_by,
});

async function readDelivery(tx: Tx, id: string): Promise<DeliveryView> {
  const delivery = await store.findDelivery(tx, id);
  if (!delivery) throw notFound("delivery");
  const today = civilDateAt(tx.at.toISOString(), tx.actor.timeZone);
  const { shortDatedDays } = await getCheckSettings(tx);
  const lines = await store.listLines(tx, id);
  return {
    ...deliveryHead(delivery),
    lines: lines.map((line) => {
      const useBy = useByOf(line);
      return {
        id: line.id,
        receivedAt: line.received_at.toISOString(),
        product: { id: line.product_id, name: line.product_name, kind: line.product_kind },
        lotId: line.lot_id,
        lot: line.lot,
        useBy,
        serial: line.serial,
        shortDated: useBy !== null && daysBetween(today, computeUseByEnd(useBy)) < shortDatedDays,
        containers: line.containers,
      };
    }),
  };
}
