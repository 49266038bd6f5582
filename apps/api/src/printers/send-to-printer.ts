import { once } from "node:events";
import { connect, type Socket } from "node:net";

export interface Limits {
  /** Until somebody answers at the address. */
  connectMs: number;
  /** Without anything sent or received. */
  silenceMs: number;
  /** All in all. */
  wholeMs: number;
  /** For the printer to end the connection once it has everything; many leave that to us. */
  partingMs: number;
}
export const usualLimits: Limits = {
  connectMs: 5_000,
  silenceMs: 10_000,
  wholeMs: 45_000,
  partingMs: 1_500,
};

export type Failure = "refused" | "no-answer" | "unknown-name" | "no-way" | "broken-off";
/** How sending went: `broken-off` after the first byte left, so what was printed is not known. */
export type Sent =
  | { outcome: "sent" }
  | { outcome: "unreachable"; why: Exclude<Failure, "broken-off"> }
  | { outcome: "broken-off" };

const failures: Record<string, Exclude<Failure, "broken-off">> = {
  ECONNREFUSED: "refused",
  ETIMEDOUT: "no-answer",
  ENOTFOUND: "unknown-name",
  EAI_AGAIN: "unknown-name",
};

/** Sends bytes as they are to a printer's port (raw TCP, by custom 9100) and hangs up. */
export async function sendToPrinter(
  address: { host: string; port: number },
  parts: Iterable<string>,
  limits: Limits = usualLimits,
): Promise<Sent> {
  const socket = connect({ ...address, autoSelectFamily: true });
  // Awaited only where it matters; an error that comes while nobody waits must not end the server.
  const broken = once(socket, "close").catch(() => undefined);
  try {
    await within(limits.connectMs, once(socket, "connect"));
  } catch (error) {
    socket.destroy();
    const code = (error as { code?: string }).code ?? "";
    return { outcome: "unreachable", why: failures[code] ?? "no-way" };
  }
  socket.on("error", () => undefined);
  socket.setTimeout(limits.silenceMs, () => socket.destroy());
  // What a printer says of itself is not asked for; unread, it would hold up the connection's end.
  socket.resume();
  try {
    await within(limits.wholeMs, sendAll(socket, parts, broken));
    await Promise.race([broken, pause(limits.partingMs)]);
    return socket.errored ? { outcome: "broken-off" } : { outcome: "sent" };
  } catch {
    return { outcome: "broken-off" };
  } finally {
    socket.destroy();
  }
}

/** Waits for the printer wherever it is slower than we are. */
async function sendAll(
  socket: Socket,
  parts: Iterable<string>,
  broken: Promise<unknown>,
): Promise<void> {
  const lost = broken.then(() => Promise.reject(new Error("the connection ended")));
  lost.catch(() => undefined);
  for (const part of parts) {
    if (socket.destroyed || socket.readableEnded) throw new Error("the printer hung up");
    if (!socket.write(part)) await Promise.race([once(socket, "drain"), lost]);
  }
  const flushed = once(socket, "finish");
  socket.end();
  await Promise.race([flushed, lost]);
}

async function within<T>(ms: number, work: Promise<T>): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_resolve, reject) => {
    const error = Object.assign(new Error("no answer in time"), { code: "ETIMEDOUT" });
    timer = setTimeout(() => reject(error), ms);
  });
  work.catch(() => undefined);
  return Promise.race([work, late]).finally(() => clearTimeout(timer));
}

const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms).unref());
