import { NestFactory } from "@nestjs/core";
import { FastifyAdapter, type NestFastifyApplication } from "@nestjs/platform-fastify";
import fastifyCompress from "@fastify/compress";
import fastifyCookie from "@fastify/cookie";
import fastifyHelmet from "@fastify/helmet";
import fastifyRateLimit from "@fastify/rate-limit";
import { HttpException } from "@nestjs/common";
import {
  LogController,
  type FastifyInstance,
  type FastifyReply,
  type FastifyRequest,
} from "fastify";
import type { DataSource } from "typeorm";
import { apiPrefix } from "#contracts/routes";
import { AppModule } from "./app.module.ts";
import { newId } from "./db/uuid.ts";
import { ActorGuard } from "./http/actor.guard.ts";
import { systemClock, type Clock } from "./http/clock.ts";
import { limits, serverLimits } from "./http/limits.ts";
import { addPages } from "./http/pages.ts";
import { ProblemFilter, sendProblem } from "./http/problem.filter.ts";
import { addTrust } from "./tls/trust.ts";
import { SecureSide } from "./tls/secure-side.ts";

export interface AppParts {
  db: DataSource;
  clock?: Clock;
  setUpCode?: string | null;
  /** The built web client; null serves the API alone. */
  webFolder?: string | null;
  /** Where https is served, told once it is; a server without it tells nobody. */
  secure?: SecureSide;
  logLevel?: "silent" | "warn" | "info";
  /** Requests a minute from one address, all together. */
  requestsPerMinute?: number;
}

/** The server as it is served and as it is tested; the caller listens and closes. */
export async function makeApp(parts: AppParts): Promise<NestFastifyApplication> {
  const adapter = new FastifyAdapter({
    logger: {
      level: parts.logLevel ?? "warn",
      redact: ["req.headers.cookie", "req.headers.authorization"],
    },
    genReqId: () => newId(),
    bodyLimit: limits.bodyBytes,
    requestTimeout: limits.requestMs,
    connectionTimeout: limits.connectionMs,
    keepAliveTimeout: limits.keepAliveMs,
    forceCloseConnections: true,
    http: serverLimits,
    routerOptions: { maxParamLength: 200 },
    // Only a request that fails is worth a line: an address can hold a chart number.
    logController: new LogController({ disableRequestLogging: true }),
    frameworkErrors: (error: unknown, request: FastifyRequest, reply: FastifyReply) =>
      sendProblem(error, request, reply),
  });
  const secure = parts.secure ?? new SecureSide();
  const clock = parts.clock ?? systemClock;
  const module = AppModule.with({
    db: parts.db,
    clock,
    setUpCode: parts.setUpCode ?? null,
    secure,
  });
  const app = await NestFactory.create<NestFastifyApplication>(module, adapter, {
    logger: ["error", "warn"],
    abortOnError: false,
    // JSON alone: a form of another site could send the other types without being asked first.
    bodyParser: false,
  });
  app.setGlobalPrefix(apiPrefix);
  app.useGlobalGuards(app.get(ActorGuard));
  app.useGlobalFilters(new ProblemFilter());
  const server = adapter.getInstance() as unknown as FastifyInstance;
  server.removeContentTypeParser("text/plain");
  await addPlugins(server, parts.requestsPerMinute ?? 3_000);
  tellTime(server, clock);
  addTrust(server, secure);
  await addPages(server, parts.webFolder ?? null);
  await app.init();
  await server.ready();
  return app;
}

/** By the one clock: pages compare the device's own with it. */
function tellTime(server: FastifyInstance, clock: Clock): void {
  server.addHook("onSend", async (_request, reply) => {
    reply.header("Date", clock.now().toUTCString());
  });
}

async function addPlugins(server: FastifyInstance, requestsPerMinute: number): Promise<void> {
  await server.register(fastifyCookie);
  await server.register(fastifyHelmet, {
    // Plain http on the practice's network must stay reachable.
    strictTransportSecurity: false,
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'self'"],
        // The decoder of the camera is WebAssembly.
        scriptSrc: ["'self'", "'wasm-unsafe-eval'"],
        imgSrc: ["'self'", "data:", "blob:"],
        objectSrc: ["'none'"],
        baseUri: ["'none'"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
      },
    },
    crossOriginEmbedderPolicy: false,
    // Below, for https alone: elsewhere a browser complains of it on every page.
    crossOriginOpenerPolicy: false,
    referrerPolicy: { policy: "no-referrer" },
  });
  // An answer of the API is short and its time counts; the client's files are neither.
  await server.register(fastifyCompress, {
    encodings: ["gzip"],
    customTypes: /^(text\/(?!event-stream)|application\/(javascript|wasm)|image\/svg)/,
  });
  await server.register(fastifyRateLimit, {
    max: requestsPerMinute,
    timeWindow: "1 minute",
    errorResponseBuilder: (_request, context) =>
      new HttpException("too many requests", context.statusCode),
  });
  server.addHook("onSend", async (request, reply) => {
    if (request.protocol === "https") reply.header("Cross-Origin-Opener-Policy", "same-origin");
    if (request.url.startsWith("/api/") && !reply.hasHeader("Cache-Control")) {
      reply.header("Cache-Control", "no-store");
    }
  });
}
