import { Catch, HttpException, type ArgumentsHost, type ExceptionFilter } from "@nestjs/common";
import type { FastifyReply, FastifyRequest } from "fastify";
import { problemOfPgError, databaseUnavailable } from "../db/pg-problems.ts";
import { Problem, problemBody } from "./problem.ts";

/** The only place that writes an error: `application/problem+json` (RFC 9457), come what may. */
@Catch()
export class ProblemFilter implements ExceptionFilter {
  catch(error: unknown, host: ArgumentsHost): void {
    const http = host.switchToHttp();
    sendProblem(error, http.getRequest<FastifyRequest>(), http.getResponse<FastifyReply>());
  }
}

export function sendProblem(error: unknown, request: FastifyRequest, reply: FastifyReply): void {
  const problem = problemOf(error);
  if (problem.status >= 500) {
    request.log.error({ err: error, requestId: request.id }, "request failed");
  }
  const { retryAfterSeconds } = problem.extra;
  if (typeof retryAfterSeconds === "number") reply.header("Retry-After", retryAfterSeconds);
  reply
    .status(problem.status)
    .header("Content-Type", "application/problem+json; charset=utf-8")
    .header("Cache-Control", "no-store")
    .send(JSON.stringify(problemBody(problem, `urn:tubule:request:${request.id}`)));
}

// The driver's and TypeORM's own errors, which carry no code; the last one when a connection broke
// between two statements.
const connectionLost = new RegExp(
  [
    "timeout exceeded when trying to connect",
    "Connection terminated",
    "not queryable",
    "Query runner already released",
  ].join("|"),
);

export function problemOf(error: unknown): Problem {
  if (error instanceof Problem) return error;
  const fromDatabase = problemOfPgError(error) ?? problemOfPgError((error as Error)?.cause);
  if (fromDatabase) return fromDatabase;
  if (connectionLost.test(String(error))) return databaseUnavailable();
  const status =
    error instanceof HttpException
      ? error.getStatus()
      : ((error as { statusCode?: number } | null)?.statusCode ?? 500);
  return byStatus(status);
}

function byStatus(status: number): Problem {
  if (status === 404 || status === 405)
    return new Problem(
      "not-found",
      "There is nothing at this address. Check it for a typing error.",
    );
  if (status === 413)
    return new Problem("payload-too-large", "The request is larger than the server accepts.");
  if (status === 415)
    return new Problem("unsupported-media-type", "Send JSON with Content-Type: application/json.");
  if (status === 429)
    return new Problem(
      "too-many-requests",
      "Too many requests at once. Wait a moment and try again.",
    );
  if (status >= 400 && status < 500)
    return new Problem("invalid-request", "The request could not be read. Is it well-formed JSON?");
  return new Problem(
    "internal-error",
    "Something went wrong on our side. Nothing was saved; try again. " +
      "If it happens again, give the request's number to whoever looks after this installation.",
  );
}
