/** Stands in for a label printer: listens at a port of this machine and keeps what it is sent. */
import { createServer, type AddressInfo, type Server, type Socket } from "node:net";

export interface FakePrinter {
  port: number;
  /** What each connection has sent so far, in the order of their coming. */
  received: string[];
  close(): Promise<void>;
}

/** `meet` says what it does with a connection; usually it reads all and hangs up last. */
export async function openPrinter(
  meet: (socket: Socket, received: string[]) => void = readAll,
): Promise<FakePrinter> {
  const received: string[] = [];
  const sockets = new Set<Socket>();
  const server = createServer((socket) => {
    sockets.add(socket);
    socket.on("error", () => undefined);
    meet(socket, received);
  });
  await listen(server);
  return {
    port: (server.address() as AddressInfo).port,
    received,
    close: async () => {
      for (const socket of sockets) socket.destroy();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}

const listen = (server: Server): Promise<void> =>
  new Promise((resolve, reject) => {
    server.on("error", reject);
    server.listen(0, "127.0.0.1", resolve);
  });

function readAll(socket: Socket, received: string[]): void {
  const at = received.push("") - 1;
  socket.on("data", (chunk: Buffer) => (received[at] += chunk.toString("latin1")));
}

let shared: Promise<number> | undefined;
/** A port where one printer listens as long as the tests run; it keeps nothing. */
export function listeningPort(): Promise<number> {
  return (shared ??= (async () => {
    const server = createServer((socket) => {
      socket.on("error", () => undefined);
      socket.resume();
    });
    await listen(server);
    server.unref();
    return (server.address() as AddressInfo).port;
  })());
}
