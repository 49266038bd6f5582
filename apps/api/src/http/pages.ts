import { access } from "node:fs/promises";
import path from "node:path";
import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify";
import { problemCodes, type ProblemCode } from "#contracts/problem-codes";
import { apiPrefix } from "#contracts/routes";
import { sayProblem } from "#texts";
import { makeOpenApi } from "./openapi.ts";
import { Problem } from "./problem.ts";
import { sendProblem } from "./problem.filter.ts";

/** The OpenAPI document, the page of each problem, and the web client with its own addresses. */
export async function addPages(server: FastifyInstance, webFolder: string | null): Promise<void> {
  let document: string | undefined;
  server.get(`${apiPrefix}/openapi.json`, (_request, reply) => {
    document ??= JSON.stringify(makeOpenApi(), null, 2);
    return reply.type("application/json; charset=utf-8").send(document);
  });
  server.get("/problems/:code", (request, reply) => {
    const { code } = request.params as { code: string };
    if (!Object.hasOwn(problemCodes, code)) return sendNotFound(request, reply);
    return reply.type("text/html; charset=utf-8").send(problemPage(code as ProblemCode));
  });
  if (webFolder !== null && (await exists(path.join(webFolder, "index.html")))) {
    await serveWeb(server, webFolder);
  }
}

async function serveWeb(server: FastifyInstance, webFolder: string): Promise<void> {
  // Only a server with a client to serve needs the plug-in.
  const { default: fastifyStatic } = await import("@fastify/static");
  await server.register(fastifyStatic, {
    root: webFolder,
    wildcard: false,
    cacheControl: false,
    setHeaders: (reply, file) => {
      const hashed = file.includes(`${path.sep}assets${path.sep}`);
      reply.header("Cache-Control", hashed ? "public, max-age=31536000, immutable" : "no-cache");
    },
  });
  // The web client makes its own addresses: each of them is the one page.
  server.get("/*", (request, reply) => {
    const accepts = request.headers.accept ?? "";
    const isPage = accepts.includes("text/html") && !request.url.startsWith("/api/");
    return isPage ? reply.sendFile("index.html") : sendNotFound(request, reply);
  });
}

const exists = (file: string): Promise<boolean> =>
  access(file).then(
    () => true,
    () => false,
  );

function sendNotFound(request: FastifyRequest, reply: FastifyReply): void {
  const what = "There is nothing at this address. Check it for a typing error.";
  sendProblem(new Problem("not-found", what), request, reply);
}

function problemPage(code: ProblemCode): string {
  const { title, status } = problemCodes[code];
  return `<!doctype html><html lang="en"><meta charset="utf-8">
<meta name="viewport" content="width=device-width"><title>${title}</title>
<h1>${title}</h1>
<p><code>${code}</code>, HTTP status ${status}</p>
<p>${sayProblem("en", code)}</p>
<p lang="de">${sayProblem("de", code)}</p>
</html>`;
}
