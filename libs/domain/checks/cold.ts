import { aboutItem, checkItems, type Check } from "./check.ts";

const minuteMs = 60_000;

/**
 * A container left the refrigerator less than its warm-up time ago, where its IFU gives one.
 * Advice, not a bar: the evidence on cold bottles is divided. Source: the product's IFU.
 */
export const cold: Check = {
  code: "cold",
  level: "caution",
  fixed: false,
  run: (context) =>
    checkItems(context, (item) => {
      const { leftRefrigeratorAt } = item.facts;
      const minutes = item.product?.warmUpMinutes ?? null;
      if (leftRefrigeratorAt === null || minutes === null) return null;
      const warmMs = Date.parse(leftRefrigeratorAt) + minutes * minuteMs;
      if (context.atMs >= warmMs) return null;
      const minutesLeft = Math.ceil((warmMs - context.atMs) / minuteMs);
      return {
        subject: aboutItem(item),
        numbers: { minutes, minutesLeft },
        remedy: { code: "let-warm", numbers: { minutesLeft } },
        because: [{ what: "warm-up", value: minutes, from: "ifu" }],
        until: new Date(warmMs).toISOString(),
      };
    }),
};
