import { createServer, type Server } from "node:https";
import type { NestFastifyApplication } from "@nestjs/platform-fastify";
import type { FastifyInstance } from "fastify";
import { limits, serverLimits } from "../http/limits.ts";
import type { KeyAndCertificate } from "./issue.ts";

/** What a browser and this server agree on at least (RFC 9325 3.1.1 refuses what is older). */
const secureContext = ({ pem }: KeyAndCertificate) => ({
  key: pem,
  cert: pem,
  minVersion: "TLSv1.2" as const,
});

export interface SecureServer {
  server: Server;
  /** Takes effect with the next connection. */
  use(certificate: KeyAndCertificate): void;
  close(): Promise<void>;
}

/** A second door to the same application: what it serves, and how, is decided in one place. */
export function makeSecureServer(
  app: NestFastifyApplication,
  certificate: KeyAndCertificate,
): SecureServer {
  const fastify = app.getHttpAdapter().getInstance() as unknown as FastifyInstance;
  const server = createServer(
    {
      ...secureContext(certificate),
      ...serverLimits,
      requestTimeout: limits.requestMs,
      keepAliveTimeout: limits.keepAliveMs,
      handshakeTimeout: serverLimits.headersTimeout,
    },
    (request, response) => fastify.routing(request, response),
  );
  server.setTimeout(limits.connectionMs);
  // What cannot be read as a request is answered as on the plain side.
  server.on("clientError", (...told) => fastify.server.emit("clientError", ...told));
  return {
    server,
    use: (next) => server.setSecureContext(secureContext(next)),
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}
