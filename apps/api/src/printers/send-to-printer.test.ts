import { afterEach, describe, expect, test } from "@jest/globals";
import { createServer, type AddressInfo, type Socket } from "node:net";
import { openPrinter, type FakePrinter } from "../../../../tests/helpers/printer.ts";
import { sendToPrinter, type Limits } from "./send-to-printer.ts";

const limits: Limits = { connectMs: 2_000, silenceMs: 400, wholeMs: 4_000, partingMs: 300 };
const host = "127.0.0.1";

let printer: FakePrinter | undefined;
afterEach(() => printer?.close());

const labels = (count: number): string[] =>
  Array.from({ length: count }, (_, index) => `^XA${index}^XZ\n`);
/** More than the kernels on both sides hold back for a printer that does not read. */
const huge = (): string[] => Array.from({ length: 200 }, () => "0".repeat(200_000));

describe("a printer that listens", () => {
  test("gets every byte, in order, in one connection", async () => {
    printer = await openPrinter();
    const sent = await sendToPrinter({ host, port: printer.port }, labels(2_000), limits);
    expect(sent).toEqual({ outcome: "sent" });
    expect(printer.received).toEqual([labels(2_000).join("")]);
  });

  test("is waited for where it is slow, and gets all of it", async () => {
    let bytes = 0;
    printer = await openPrinter((socket) => {
      socket.on("data", (chunk: Buffer) => {
        bytes += chunk.length;
        socket.pause();
        setTimeout(() => socket.resume(), 1);
      });
    });
    const parts = huge().slice(0, 20);
    const patient = { ...limits, silenceMs: 5_000, wholeMs: 30_000 };
    const sent = await sendToPrinter({ host, port: printer.port }, parts, patient);
    expect(sent).toEqual({ outcome: "sent" });
    for (let turn = 0; bytes < 20 * 200_000 && turn < 200; turn += 1) {
      await new Promise((resolve) => setTimeout(resolve, 25));
    }
    expect(bytes).toBe(20 * 200_000);
  });

  test("may hang up once it has everything", async () => {
    printer = await openPrinter((socket) => {
      socket.resume();
      socket.on("end", () => socket.end());
    });
    const began = Date.now();
    const generous = { ...limits, partingMs: 10_000 };
    expect(await sendToPrinter({ host, port: printer.port }, labels(3), generous)).toEqual({
      outcome: "sent",
    });
    expect(Date.now() - began).toBeLessThan(5_000);
  });

  test("may say something of itself, which is not listened to", async () => {
    printer = await openPrinter((socket) => {
      socket.write("\u0002030,0,0\u0003\r\n".repeat(100));
      socket.resume();
    });
    const sent = await sendToPrinter({ host, port: printer.port }, labels(3), limits);
    expect(sent).toEqual({ outcome: "sent" });
  });
});

describe("what was printed is not known", () => {
  const refuseEarly = (socket: Socket): void => {
    socket.once("data", () => socket.resetAndDestroy());
  };
  const cases: [string, (socket: Socket) => void][] = [
    ["never reads on", (socket) => void socket.pause()],
    ["hangs up after the first bytes", refuseEarly],
    [
      "hangs up politely after the first bytes",
      (socket) => socket.once("data", () => socket.end()),
    ],
  ];
  test.each(cases)("where the printer %s", async (_what, meet) => {
    printer = await openPrinter(meet);
    const began = Date.now();
    const sent = await sendToPrinter({ host, port: printer.port }, huge(), limits);
    expect(sent).toEqual({ outcome: "broken-off" });
    expect(Date.now() - began).toBeLessThan(6_000);
  });
});

describe("nothing was sent", () => {
  test("where nobody listens at the port", async () => {
    const server = createServer();
    await new Promise<void>((resolve) => server.listen(0, host, resolve));
    const { port } = server.address() as AddressInfo;
    await new Promise((resolve) => server.close(resolve));
    expect(await sendToPrinter({ host, port }, labels(1), limits)).toEqual({
      outcome: "unreachable",
      why: "refused",
    });
  });

  test("where nobody knows the name", async () => {
    // RFC 6761: "invalid" is a name that never exists.
    const sent = await sendToPrinter({ host: "printer.invalid", port: 9100 }, labels(1), limits);
    expect(sent).toEqual({ outcome: "unreachable", why: "unknown-name" });
  });

  test("where nobody answers in time", async () => {
    // RFC 5737: an address for documentation, which no network leads to.
    const began = Date.now();
    const hasty = { ...limits, connectMs: 300 };
    const sent = await sendToPrinter({ host: "192.0.2.1", port: 9100 }, labels(1), hasty);
    expect(sent.outcome).toBe("unreachable");
    expect(Date.now() - began).toBeLessThan(3_000);
  });
});
