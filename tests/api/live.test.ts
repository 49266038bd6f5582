/** What changes while pages are open: verdicts that change by themselves, and who is told. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import { apiPrefix } from "#contracts/routes";
import { LiveService } from "../../apps/api/src/live/live.service.ts";
import { openApp, roleNames, type TestApp } from "../helpers/app.ts";
import { RawClient } from "../helpers/raw.ts";
import { Maker, type MadeLot, type SealingSet } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
let live: LiveService;
let set: SealingSet;
let flowable: MadeLot;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
  live = it.app.get(LiveService);
  set = await make.sealingSet();
  flowable = set.flowable.lot;
});
afterAll(() => it.close());

const changesNow = async () => {
  await live.settled();
  return (await it.practice.assistant.call("listVerdictChanges")).ok.changes;
};
const withdraw = async () => {
  const scope = [{ productId: set.flowable.product.id, lot: flowable.lot }];
  const body = { reference: make.name("FSN"), scope };
  return (await it.practice.office.call("openWithdrawal", { body })).ok.id;
};
const closeWithdrawal = (withdrawalId: string) =>
  it.practice.office.call("closeWithdrawal", {
    params: { withdrawalId },
    body: { summary: "looked into and settled" },
  });

/** Reads server-sent events until one of that name comes. */
async function nextEvent(address: string, cookie: string) {
  const stopping = new AbortController();
  const answer = await fetch(`${address}${apiPrefix}/live`, {
    headers: { cookie },
    signal: stopping.signal,
  });
  const reader = answer.body!.getReader();
  let text = "";
  return {
    type: answer.headers.get("content-type"),
    until: async (name: string): Promise<unknown> => {
      const pattern = new RegExp(`event: ${name}\ndata: (.*)\n\n`);
      for (;;) {
        const found = pattern.exec(text);
        if (found) {
          text = text.slice(found.index + found[0].length);
          return JSON.parse(found[1]!);
        }
        const { value, done } = await reader.read();
        if (done) throw new Error(`the stream ended before ${name}: ${text}`);
        text += new TextDecoder().decode(value);
      }
    },
    close: () => stopping.abort(),
  };
}

describe("a withdrawal", () => {
  test("changes the verdict of the tray planned with its lot, and says so at once", async () => {
    const tray = await make.fullTray(set);
    expect(await changesNow()).toEqual([]);
    const withdrawal = await withdraw();
    expect(await changesNow()).toMatchObject([
      {
        trayId: tray.id,
        chartNumber: tray.chartNumber,
        teeth: ["16"],
        before: "clear",
        after: "stop",
        codes: ["withdrawn"],
        cause: "withdrawal-opened",
      },
    ]);
    expect((await closeWithdrawal(withdrawal)).status).toBe(200);
    expect(await changesNow()).toMatchObject([
      { trayId: tray.id, before: "stop", after: "clear", cause: "withdrawal-closed" },
    ]);
    const given = { params: { trayId: tray.id }, body: {} };
    await it.practice.assistant.call("clearTray", given);
    expect(await changesNow()).toEqual([]);
  });

  test("is told to every open page of the practice, with whose verdict changed", async () => {
    if (!it.app.getHttpServer().listening) await it.app.listen(0, "127.0.0.1");
    const { port } = it.app.getHttpServer().address() as { port: number };
    const address = `http://127.0.0.1:${port}`;
    const client = await RawClient.of(it);
    const stream = await nextEvent(address, await client.signIn("dentist"));
    client.close();
    expect(stream.type).toMatch(/^text\/event-stream/);
    await stream.until("ready");
    const tray = await make.fullTray(set);
    expect(await stream.until("changed")).toEqual({ actions: ["tray-planned"] });
    await live.settled();
    const withdrawal = await withdraw();
    expect(await stream.until("verdicts")).toEqual({
      cause: "withdrawal-opened",
      trays: [{ trayId: tray.id, before: "clear", after: "stop" }],
    });
    stream.close();
    await closeWithdrawal(withdrawal);
    await it.practice.assistant.call("clearTray", { params: { trayId: tray.id }, body: {} });
  });
});

describe("a new day", () => {
  test("lets a verdict change by itself, once, in the practice's own zone", async () => {
    const product = await make.product("flowable");
    const ending = await make.received(product, { useBy: "2026-06-15" });
    const tray = await make.tray({ appointmentAt: "2026-06-15T20:00:00.000Z" });
    for (const [kind, { lot }] of Object.entries(set)) {
      await make.scanned(tray.id, kind === "flowable" ? ending.first.code : lot.first.code);
    }
    await live.beginDays();
    await changesNow();
    // 23:59 and 0:01 in Berlin, where the practice is.
    it.clock.set("2026-06-15T21:59:00.000Z");
    for (const role of roleNames) await it.practice[role].signIn(role);
    await live.beginDays();
    expect(await changesNow()).toEqual([]);
    it.clock.set("2026-06-15T22:01:00.000Z");
    await live.beginDays();
    const changes = await changesNow();
    expect(changes).toMatchObject([{ trayId: tray.id, after: "stop", cause: "day-begun" }]);
    expect(changes[0]?.codes).toContain("past-use-by");
    await live.beginDays();
    expect(await changesNow()).toEqual(changes);
  });
});

describe("how often a finding is passed", () => {
  test("counts the trays it was seen on and those that started with it, by month", async () => {
    const product = await make.product("flowable", { confirmed: false });
    const { containers } = await make.received(product, { quantity: 2 });
    const linesNow = async () => {
      await live.settled();
      const { lines } = (await it.practice.office.call("getCheckStatistics")).ok;
      return lines.find(({ code }) => code === "unconfirmed");
    };
    const before = await linesNow();
    const other = await make.sealingSet();
    const trayWith = async (code: string) => {
      const { id } = await make.tray();
      for (const [kind, { lot }] of Object.entries(other)) {
        await make.scanned(id, kind === "flowable" ? code : lot.first.code);
      }
      await live.settled();
      return id;
    };
    const cleared = await trayWith(containers[0]!.code);
    await it.practice.assistant.call("clearTray", { params: { trayId: cleared }, body: {} });
    await make.started(await trayWith(containers[1]!.code));
    expect(await linesNow()).toEqual({
      month: "2026-06",
      code: "unconfirmed",
      level: "caution",
      seen: (before?.seen ?? 0) + 2,
      wentAhead: (before?.wentAhead ?? 0) + 1,
    });
  });
});
