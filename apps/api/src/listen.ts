import { once } from "node:events";
import type { Server } from "node:net";

const neighbours = 20;

/** Tries a port, then the next free one after it when another program has it; gives the port. */
export async function listenNear(
  port: number,
  listen: (port: number) => Promise<number>,
): Promise<number> {
  for (let next = port; ; next++) {
    const last = next >= port + neighbours || port === 0;
    try {
      return await listen(last && next !== port ? 0 : next);
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      if (last || (code !== "EADDRINUSE" && code !== "EACCES")) throw error;
    }
  }
}

export const portOf = (server: Server): number => (server.address() as { port: number }).port;

/** For a server of node's own: gives the port, or throws why it cannot listen there. */
export async function listenOn(
  server: Server,
  told: { port: number; host: string },
): Promise<number> {
  server.listen(told);
  await once(server, "listening");
  return portOf(server);
}
