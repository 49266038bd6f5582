import {
  applyDecorators,
  createParamDecorator,
  Delete,
  Get,
  HttpCode,
  Post,
  Put,
  SetMetadata,
  type ExecutionContext,
} from "@nestjs/common";
import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { operations, type AnswerOf, type ParamsOf } from "#contracts/operations";
import { Id } from "#contracts/common";
import { routes, type RouteName } from "#contracts/routes";
import type { Submission } from "../db/transaction.ts";
import type { Actor } from "./actor.ts";
import { Problem } from "./problem.ts";

const operationKey = "tubule operation";
const verbs = { GET: Get, POST: Post, PUT: Put, DELETE: Delete };

type Parsed<N extends RouteName, K extends "body" | "query"> =
  (typeof operations)[N] extends Record<K, infer S extends z.ZodType> ? z.output<S> : undefined;

/** One checked request: who asks, and everything the contract lets through. */
export interface Call<N extends RouteName> {
  actor: Actor;
  at: Date;
  params: ParamsOf<N>;
  query: Parsed<N, "query">;
  body: Parsed<N, "body">;
  /** What a repeated submission is known by; a read has none. */
  submission: Submission;
  request: FastifyRequest;
  reply: FastifyReply;
}
export type Answer<N extends RouteName> = AnswerOf<N>;

export interface RequestState {
  actor?: Actor;
  at: Date;
}
export const stateOf = (request: FastifyRequest): RequestState =>
  (request as unknown as { tubule: RequestState }).tubule;

/** Binds a controller's method to its line in `routes.ts`. */
export function Operation(name: RouteName): MethodDecorator {
  const { method, path } = routes[name];
  return applyDecorators(
    verbs[method](path),
    HttpCode(operations[name].status),
    SetMetadata(operationKey, name),
  );
}

export function operationOf(context: ExecutionContext): RouteName | undefined {
  return Reflect.getMetadata(operationKey, context.getHandler()) as RouteName | undefined;
}

/** The checked request as a parameter: `@Checked() call: Call<"scanIntoTray">`. */
export const Checked = createParamDecorator((_data: unknown, context: ExecutionContext) => {
  const name = operationOf(context);
  if (!name) throw new Error("@Checked() stands on a method without @Operation()");
  const http = context.switchToHttp();
  return checkCall(name, http.getRequest<FastifyRequest>(), http.getResponse<FastifyReply>());
});

function checkCall(name: RouteName, request: FastifyRequest, reply: FastifyReply) {
  const operation: { query?: z.ZodType; body?: z.ZodType; status: number } = operations[name];
  const params = parse(paramsSchema(name), request.params, "path");
  const query = operation.query ? parse(operation.query, request.query, "query") : undefined;
  const body = operation.body ? parse(operation.body, request.body, "body") : undefined;
  const { actor, at } = stateOf(request);
  const submission = {
    key: keyOf(name, request),
    operation: name,
    content: { params, body: withoutSecrets(body) },
    status: operation.status,
  };
  return { actor, at, params, query, body, submission, request, reply };
}

/** A fingerprint is kept for a month: no hash of a password may stand in it. */
function withoutSecrets(body: unknown): unknown {
  if (typeof body !== "object" || body === null) return body;
  const { password: _password, pin: _pin, ...rest } = body as Record<string, unknown>;
  return rest;
}

const schemas = new Map<RouteName, z.ZodType>();
function paramsSchema(name: RouteName): z.ZodType {
  let schema = schemas.get(name);
  if (!schema) {
    const names = [...routes[name].path.matchAll(/:(\w+)/g)].map((match) => match[1]!);
    schema = z.strictObject(Object.fromEntries(names.map((each) => [each, Id])));
    schemas.set(name, schema);
  }
  return schema;
}

function parse(schema: z.ZodType, value: unknown, where: string): unknown {
  const read = schema.safeParse(value === undefined ? {} : value);
  const issues = read.success ? unstorable(read.data, []) : read.error.issues;
  if (read.success && issues.length === 0) return read.data;
  const errors = issues.slice(0, 20).map((issue) => ({
    path: `/${[where, ...issue.path.map(String)].join("/")}`,
    message: issue.message,
  }));
  // An id of another form names nothing that could exist.
  if (where === "path") throw new Problem("not-found", "There is nothing at this address.");
  const first = errors[0]!;
  throw new Problem("invalid-request", `${first.path}: ${first.message}. Mend it and send again.`, {
    errors,
  });
}

/** PostgreSQL keeps neither U+0000 nor half a surrogate pair, nor does canonical JSON. */
function unstorable(
  value: unknown,
  path: PropertyKey[],
): Pick<z.core.$ZodIssue, "path" | "message">[] {
  if (typeof value === "string") {
    const message = "holds a character that cannot be stored";
    return value.includes("\0") || /\p{Surrogate}/u.test(value) ? [{ path, message }] : [];
  }
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, each]) => unstorable(each, [...path, key]));
}

/** A write by a member carries a key; signing in makes nothing that a key could protect. */
function keyOf(name: RouteName, request: FastifyRequest): string {
  const route: { method: string; roles: unknown } = routes[name];
  if (route.method === "GET" || route.roles === "anyone") return "";
  const key = request.headers["idempotency-key"];
  if (typeof key === "string" && /^[\x21-\x7e]{8,128}$/.test(key)) return key;
  throw new Problem(
    "idempotency-key-missing",
    "Send an Idempotency-Key header of 8 to 128 characters, a new one for each new request, " +
      "the same one when the same request is sent again.",
  );
}
