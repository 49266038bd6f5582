import type { NestFastifyApplication } from "@nestjs/platform-fastify";

const neighbours = 20;

/** Listens on the port, or on the next free one after it when another program has it. */
export async function listenNear(
  app: NestFastifyApplication,
  told: { host: string; port: number },
): Promise<number> {
  const { host, port } = told;
  for (let next = port; ; next++) {
    const last = next >= port + neighbours || port === 0;
    try {
      await app.listen(last && next !== port ? 0 : next, host);
      return (app.getHttpServer().address() as { port: number }).port;
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      if (last || (code !== "EADDRINUSE" && code !== "EACCES")) throw error;
    }
  }
}
