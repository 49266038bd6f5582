/** Good requests of the second visit; a part of `every-operation.ts`. */
import type { waitingOperations } from "#contracts/waiting-operations";
import { sealTooth } from "../helpers/seals.ts";
import type { Preparing } from "./every-operation.ts";

export const waitingRequests: Pick<Preparing, keyof typeof waitingOperations> = {
  listWaiting: async (make) => ({
    query: {
      list: "overdue",
      chart: make.name("C"),
      limit: 10,
      after: "01999999-9999-7999-8999-999999999999",
    },
  }),
  changeWaiting: async (make) => ({
    params: { sealId: (await sealTooth(make)).id },
    body: { waits: false, reason: "other", note: `${make.prefix}bonded by the referring dentist` },
  }),
  getTraySeals: async (make) => ({ params: { trayId: (await make.smallTray()).trayId } }),
};
