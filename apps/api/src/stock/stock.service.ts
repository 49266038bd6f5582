import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { civilDateAt, type LocationKind, type OwnCode } from "#domain";
import type { ContainerView, MovementView } from "#contracts/stock";
import { findProductByIdentifier } from "../catalogue/catalogue.store.ts";
import type { LocationRow } from "../db/tables.ts";
import { inCommand, inRead, type Tx } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import type { Answer, Call } from "../http/operation.ts";
import { notFound, Problem } from "../http/problem.ts";
import { containerView, type ContainerRow } from "./container-row.ts";
import * as ledger from "./movements.store.ts";
import { readScan } from "./reading.ts";
import * as store from "./stock.store.ts";

/** Which places a movement for a reason may lead to. */
const placesOf: Record<string, readonly LocationKind[]> = {
  quarantined: ["quarantine"],
  "used-up": ["used"],
  discarded: ["discarded"],
  returned: ["returned"],
  lost: ["lost"],
  "put-away": ["store", "refrigerator", "operatory"],
  moved: ["store", "refrigerator", "operatory"],
  released: ["store", "refrigerator", "operatory"],
};

@Injectable()
export class StockService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  readScan(call: Call<"readScan">): Promise<Answer<"readScan">> {
    return inRead(this.db, call, async (tx) => {
      const scan = readScan(tx, call.body);
      const { reading } = scan;
      const none = { reading, product: null, containers: [], place: null, tray: null };
      if (scan.type === "code") return { ...none, ...(await findOwn(tx, scan)) };
      const product = reading.identifier && (await findProductByIdentifier(tx, reading.identifier));
      if (!product) return none;
      const { lot, serial } = reading;
      const wanted = { productId: product.product_id, lot, serial, forTrayId: null };
      return {
        ...none,
        product: { id: product.product_id, name: product.name, kind: product.kind },
        containers: (await store.findContainersByLabel(tx, wanted)).map(containerView),
      };
    });
  }

  listContainers(call: Call<"listContainers">): Promise<Answer<"listContainers">> {
    return inRead(this.db, call, async (tx) => {
      const rows = await store.listContainers(tx, call.query);
      const page = rows.slice(0, call.query.limit);
      const next = rows.length > page.length ? page.at(-1)!.cursor : null;
      return { containers: page.map(containerView), next };
    });
  }

  getContainer(call: Call<"getContainer">): Promise<Answer<"getContainer">> {
    return inRead(this.db, call, async (tx) => {
      const container = await getContainer(tx, call.params.containerId);
      const movements = await ledger.listContainerMovements(tx, container.id);
      const uses = await store.listContainerUses(tx, container);
      return {
        container: containerView(container),
        movements: movements.map(movementView),
        uses: uses.map((use) => ({
          recordId: use.record_id,
          chartNumber: use.chart_number,
          tooth: use.tooth,
          stepKey: use.step_key,
          usedAt: use.used_at.toISOString(),
        })),
      };
    });
  }

  openContainer(call: Call<"openContainer">): Promise<ContainerView> {
    return inCommand(this.db, call, async (tx) => {
      const container = await getContainer(tx, call.params.containerId);
      const view = containerView(container);
      if (container.opened_on !== null) throw alreadyOpened(container);
      if (view.state !== "sealed") {
        throw new Problem(
          "container-not-there",
          `${view.code} is ${view.state} (${view.location.name}), so it cannot be opened.`,
        );
      }
      const today = civilDateAt(tx.at.toISOString(), tx.actor.timeZone);
      const on = call.body.on ?? today;
      if (on > today) {
        throw new Problem("invalid-request", "A container cannot be opened on a later day.", {
          errors: [{ path: "/body/on", message: `at the latest ${today}` }],
        });
      }
      if (!(await store.updateOpenedOn(tx, container.id, on))) {
        throw alreadyOpened(await getContainer(tx, container.id));
      }
      tx.audit("container-opened", `container:${container.id}`, { on });
      return containerView({ ...container, opened_on: on });
    });
  }

  move(call: Call<"move">): Promise<Answer<"move">> {
    const { body } = call;
    return inCommand(this.db, call, async (tx) => {
      const from = await store.findLocation(tx, body.fromLocationId);
      const to = await store.findLocation(tx, body.toLocationId);
      if (!from || !to) throw notFound("place");
      checkReason(body.reason, from, to);
      const lotId = body.lotId ?? (await getContainer(tx, body.containerId!)).lot_id;
      const id = newId();
      await ledger.insertMovement(tx, {
        ...body,
        id,
        lotId,
        containerId: body.containerId ?? null,
      });
      tx.audit("moved", `movement:${id}`, { ...body, lotId });
      return { movement: movementView((await ledger.findMovement(tx, id))!) };
    });
  }

  reverseMovement(call: Call<"reverseMovement">): Promise<Answer<"reverseMovement">> {
    return inCommand(this.db, call, async (tx) => {
      const wrong = await ledger.findMovement(tx, call.params.movementId);
      if (!wrong) throw notFound("movement");
      const id = newId();
      await ledger.insertMovement(tx, {
        id,
        lotId: wrong.lot_id,
        containerId: wrong.container_id,
        fromLocationId: wrong.to_location_id,
        toLocationId: wrong.from_location_id,
        quantity: wrong.quantity,
        reason: "reversed",
        note: call.body.note,
        reversesId: wrong.id,
      });
      tx.audit("reversed", `movement:${id}`, { reverses: wrong.id, note: call.body.note });
      return { movement: movementView((await ledger.findMovement(tx, id))!) };
    });
  }

  listBalances(call: Call<"listBalances">): Promise<Answer<"listBalances">> {
    return inRead(this.db, call, async (tx) => ({
      balances: (await store.listBalances(tx, call.query)).map((row) => ({
        lotId: row.lot_id,
        lot: row.lot,
        productName: row.product_name,
        location: { id: row.location_id, name: row.location_name, kind: row.location_kind },
        quantity: row.quantity,
      })),
    }));
  }
}

/** What one of the practice's own codes names; nothing where it was never given out here. */
async function findOwn(tx: Tx, { kind, code }: OwnCode): Promise<Partial<Answer<"readScan">>> {
  if (kind === "location") return { place: (await store.findPlaceByCode(tx, code)) ?? null };
  if (kind === "tray") return { tray: (await store.findTrayByCode(tx, code)) ?? null };
  const row = await store.findContainerByCode(tx, code);
  if (!row) return {};
  const container = containerView(row);
  return { product: container.product, containers: [container] };
}

async function getContainer(tx: Tx, id: string) {
  const container = await store.findContainer(tx, id);
  if (!container) throw notFound("container");
  return container;
}

/** Goods leave the outside world by a delivery, a reversal or a count, never by a bare movement. */
function checkReason(reason: string, from: LocationRow, to: LocationRow): void {
  if (reason === "counted") {
    if ((from.kind === "count-difference") === (to.kind === "count-difference"))
      throw wrongPlace("fromLocationId", "A count moves between a shelf and 'count difference'.");
    return;
  }
  if (from.outside) {
    const advice = "Undo the movement that took it there, or receive a delivery.";
    throw wrongPlace("fromLocationId", `'${from.name}' is outside the practice. ${advice}`);
  }
  const kinds = placesOf[reason]!;
  if (!kinds.includes(to.kind)) {
    const places = kinds.join(" or ");
    throw wrongPlace("toLocationId", `A movement '${reason}' leads to a place of kind ${places}.`);
  }
}

const wrongPlace = (field: string, detail: string) =>
  new Problem("invalid-request", detail, { errors: [{ path: `/body/${field}`, message: detail }] });

const movementView = (row: ledger.MovementRow): MovementView => ({
  id: row.id,
  from: row.from_name,
  to: row.to_name,
  quantity: row.quantity,
  reason: row.reason,
  note: row.note,
  occurredAt: row.occurred_at.toISOString(),
  recordedAt: row.recorded_at.toISOString(),
  person: row.person,
  reverses: row.reverses_id,
  reversedBy: row.reversed_by,
});

const alreadyOpened = ({ code, opened_on: openedOn }: ContainerRow) =>
  new Problem("already-opened", `${code} was opened on ${openedOn}; that date stays.`, {
    openedOn,
  });
