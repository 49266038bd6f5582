import type { AddProduct } from "#contracts/catalogue";
import demo from "../../../../shared/demo-practice.json" with { type: "json" };
import { CatalogueService } from "../catalogue/catalogue.service.ts";
import { ReceivingService } from "../receiving/receiving.service.ts";
import { StockService } from "../stock/stock.service.ts";
import { callAs, dayOf, labelOf, momentOf, type DemoScene } from "./demo-scene.ts";

/** The fictional catalogue, each entry confirmed by the dentist unless the data say not. */
export async function fillCatalogue(scene: DemoScene): Promise<void> {
  const catalogue = scene.app.get(CatalogueService);
  const at = momentOf(scene, -101, 12);
  const office = { signInName: "office", at };
  const systems = new Map<string, string>();
  for (const name of demo.systems) {
    const system = await catalogue.addSystem(
      callAs<"addSystem">(scene, office, { body: { name } }),
    );
    systems.set(name, system.id);
  }
  for (const entry of demo.products) {
    const {
      key,
      system = null,
      confirmed = true,
      ...facts
    } = entry as typeof entry & {
      system?: string;
      confirmed?: boolean;
    };
    const body = {
      ...emptyProduct,
      ...facts,
      systemId: system === null ? null : systems.get(system)!,
    } as AddProduct;
    const product = await catalogue.addProduct(callAs<"addProduct">(scene, office, { body }));
    scene.products.set(key, product.id);
    if (!confirmed) continue;
    await catalogue.confirmProduct(
      callAs<"confirmProduct">(
        scene,
        { signInName: "dentist", at },
        {
          params: { productId: product.id },
          body: { version: product.version, ifuVersion: facts.ifuVersion },
        },
      ),
    );
  }
}

const emptyProduct: Omit<AddProduct, "name" | "kind" | "identifiers"> = {
  labeler: "",
  solvents: null,
  strategy: null,
  systemId: null,
  contents: [],
  inUseLife: null,
  applicationSeconds: null,
  airDrySeconds: null,
  cureSeconds: null,
  radiantExposureJCm2: null,
  warmUpMinutes: null,
  dropLifeSeconds: null,
  fillerPercent: null,
  modulusGpa: null,
  excursionLevel: "caution",
  storageMinC: null,
  storageMaxC: null,
  singleUse: false,
  usesPerContainer: null,
  ifuVersion: "",
};

export async function receiveDeliveries(scene: DemoScene): Promise<void> {
  const receiving = scene.app.get(ReceivingService);
  for (const { days, supplier, lines } of demo.deliveries) {
    const who = { signInName: "assistant", at: momentOf(scene, days, 8) };
    const body = { supplier, note: "" };
    const delivery = await receiving.openDelivery(callAs<"openDelivery">(scene, who, { body }));
    for (const line of lines) {
      const useBy = dayOf(scene, line.useByDays);
      const received = await receiving.receive(
        callAs<"receive">(scene, who, {
          params: { deliveryId: delivery.id },
          body: {
            barcodes: [labelOf(line.product, line.pack, { lot: line.lot, useBy })],
            locationId: scene.places.get(line.place as "store")!,
            quantity: line.quantity,
            acceptWithoutUseBy: false,
          },
        }),
      );
      scene.containers.set(line.lot, received.containers);
    }
  }
}

export const containerOf = (scene: DemoScene, lot: string, nth: number) =>
  scene.containers.get(lot)![nth - 1]!;

export async function openBottles(scene: DemoScene): Promise<void> {
  const stock = scene.app.get(StockService);
  for (const { lot, nth, days } of demo.opened) {
    const who = { signInName: "assistant", at: momentOf(scene, days, 8) };
    const params = { containerId: containerOf(scene, lot, nth).id };
    await stock.openContainer(callAs<"openContainer">(scene, who, { params, body: {} }));
  }
}

export async function discardBroken(scene: DemoScene): Promise<void> {
  const stock = scene.app.get(StockService);
  for (const { lot, nth, days, note } of demo.discarded) {
    const who = { signInName: "assistant", at: momentOf(scene, days, 17) };
    const body = {
      containerId: containerOf(scene, lot, nth).id,
      fromLocationId: scene.places.get("store")!,
      toLocationId: scene.places.get("discarded")!,
      quantity: 1,
      reason: "discarded" as const,
      note,
    };
    await stock.move(callAs<"move">(scene, who, { body }));
  }
}
