/** Good requests for records; a part of `every-operation.ts`. */
import type { recordOperations } from "#contracts/record-operations";
import { password } from "../helpers/app.ts";
import type { Maker } from "../helpers/make.ts";
import { sealTooth } from "../helpers/seals.ts";
import type { Preparing } from "./every-operation.ts";

export async function cementRecord(make: Maker) {
  const small = await make.smallTray();
  return { ...small, recordId: (await make.started(small.trayId)).id };
}

const usualKind = "bonding-cement";
const paperOf = async (make: Maker) => ({
  params: { recordId: (await cementRecord(make)).recordId },
  query: { language: "de" as const },
});

export const recordRequests: Pick<Preparing, keyof typeof recordOperations> = {
  startRecord: async (make) => {
    const { id: sealId, chartNumber } = await sealTooth(make);
    const { trayId } = await make.smallTray({ chartNumber });
    return { params: { trayId }, body: { seals: [{ tooth: "16", sealId }] } };
  },
  listRecords: async (make) => ({
    query: {
      chart: make.name("C"),
      tooth: "16",
      lot: make.name("L"),
      on: "2026-06-15",
      limit: 10,
      after: "01999999-9999-7999-8999-999999999999",
    },
  }),
  getRecord: async (make) => ({ params: { recordId: (await cementRecord(make)).recordId } }),
  getRecordDocument: paperOf,
  getMaterialCard: paperOf,
  getRecordFhir: async (make) => {
    const { trayId } = await make.smallTray();
    const record = await make.worked(await make.started(trayId));
    await make.signed(record.id);
    return { params: { recordId: record.id }, query: { language: "de" as const } };
  },
  addRecordEvent: async (make) => ({
    params: { recordId: (await cementRecord(make)).recordId },
    body: {
      kind: "not-scanned",
      stepKey: "cement",
      productId: (await make.usualProduct(usualKind)).id,
      reason: `${make.prefix}label torn`,
      occurredAt: "2026-06-15T08:00:00.000Z",
    },
  }),
  swapContainer: async (make) => {
    const { recordId, container } = await cementRecord(make);
    const { first } = await make.received(await make.usualProduct(usualKind));
    return {
      params: { recordId },
      body: {
        stepKey: "cement",
        barcodes: [first.code],
        replaces: container.id,
        emptied: true,
      },
    };
  },
  signRecord: async (make) => {
    const { trayId } = await make.smallTray();
    const record = await make.worked(await make.started(trayId));
    return { params: { recordId: record.id }, body: { password } };
  },
  amendRecord: async (make) => {
    const { trayId } = await make.smallTray();
    const { id } = await make.worked(await make.started(trayId));
    const { materials } = await make.signed(id);
    const { first } = await make.received(await make.usualProduct(usualKind));
    return {
      params: { recordId: id },
      body: {
        amends: "correction" as const,
        reason: `${make.prefix}another bottle stood there`,
        leaveOut: { events: [], materials: [materials[0]!.id] },
        add: [{ kind: "used" as const, stepKey: "cement", containerId: first.id }],
        password,
      },
    };
  },
};
