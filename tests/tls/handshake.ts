/** A TLS server with a certificate, and what a client that trusts one authority says to it. */
import { once } from "node:events";
import type { NetworkInterfaceInfo } from "node:os";
import { connect, createServer, type ConnectionOptions, type Server } from "node:tls";

const open: Server[] = [];

/** Serves a key and certificate on loopback; gives the port. */
export async function serveTls(pem: string): Promise<number> {
  const server = createServer({ key: pem, cert: pem }, (socket) => socket.end("welcome"));
  server.on("tlsClientError", () => undefined);
  open.push(server);
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  return (server.address() as { port: number }).port;
}

export function closeServers(): void {
  for (const server of open.splice(0)) server.close();
}

/** The protocol agreed on, or why there was none: a code, else in words. */
export function shakeHands(options: ConnectionOptions): Promise<string> {
  return new Promise((resolve) => {
    const socket = connect({ host: "127.0.0.1", ...options });
    const settle = (answer: string) => {
      socket.destroy();
      resolve(answer);
    };
    socket.once("secureConnect", () => settle(socket.getProtocol() ?? "none"));
    socket.once("error", ({ code, message }: NodeJS.ErrnoException) => {
      settle(code === undefined || code === "UNSPECIFIED" ? message : code);
    });
  });
}

/** A machine as a test wants it: its name, and its addresses with their networks. */
export function machineOf(name: string, ...cidrs: string[]) {
  const cards = cidrs.map((cidr) => ({
    address: cidr.split("/")[0]!,
    cidr,
    family: cidr.includes(":") ? ("IPv6" as const) : ("IPv4" as const),
    internal: false,
    mac: "02:00:00:00:00:01",
    netmask: "",
    scopeid: 0,
  }));
  return { name, interfaces: { card: cards as NetworkInterfaceInfo[] } };
}
