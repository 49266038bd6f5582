import { z } from "zod";
import { ProblemBody } from "#contracts/common";
import { isFile, type Operation } from "#contracts/operation";
import { operations } from "#contracts/operations";
import { problemCodes, type ProblemCode } from "#contracts/problem-codes";
import { apiPrefix, routes, type RouteName } from "#contracts/routes";
import { version } from "../version.ts";

type Json = Record<string, unknown>;

/** Problems that any operation may answer with, by the kind of its route. */
export function sharedProblems(name: RouteName): ProblemCode[] {
  const { method, roles }: { method: string; roles: unknown } = routes[name];
  const codes: ProblemCode[] = ["internal-error", "database-unavailable", "too-many-requests"];
  if (method !== "GET") codes.push("request-in-progress");
  if ("body" in operations[name] || "query" in operations[name]) codes.push("invalid-request");
  if (roles !== "anyone") codes.push("not-signed-in");
  if (Array.isArray(roles)) codes.push("not-allowed");
  if (method === "GET") return codes;
  codes.push("foreign-origin", "unsupported-media-type", "payload-too-large");
  if (roles !== "anyone") codes.push("idempotency-key-missing", "idempotency-key-reused");
  return codes;
}

/** The OpenAPI 3.1 document, made from the very schemas that the server validates with. */
export function makeOpenApi(): Json {
  const components: Json = {};
  const schemaOf = (schema: z.ZodType, io: "input" | "output"): Json => {
    const options = { target: "draft-2020-12", io, uri: schemaRef, reused: "inline" } as const;
    const { $schema: _dialect, $defs, ...rest } = z.toJSONSchema(schema, options) as Json;
    for (const [id, definition] of Object.entries(($defs ?? {}) as Json)) {
      components[id] ??= withoutId(relink(definition) as Json);
    }
    const { id } = (schema.meta() ?? {}) as { id?: string };
    if (id === undefined) return relink(rest) as Json;
    components[id] ??= withoutId(relink(rest) as Json);
    return { $ref: schemaRef(id) };
  };
  const paths: Record<string, Json> = {};
  for (const name of Object.keys(routes) as RouteName[]) {
    const path = `${apiPrefix}${routes[name].path.replace(/:(\w+)/g, "{$1}")}`;
    (paths[path] ??= {})[routes[name].method.toLowerCase()] = describe(name, schemaOf);
  }
  return {
    openapi: "3.1.0",
    info: {
      title: "Tubule",
      version,
      description:
        "A record-keeping and checking aid for the bonding materials of a dental practice. It does " +
        "not replace the instructions for use, local regulation or the judgement of the clinician.",
      license: { name: "MIT", identifier: "MIT" },
    },
    servers: [{ url: "/" }],
    tags: [...new Set(Object.values(operations).map(({ tag }) => tag))].map((tag) => ({
      name: tag,
    })),
    paths,
    components: {
      schemas: components,
      securitySchemes: {
        session: { type: "apiKey", in: "cookie", name: "tubule_session" },
        secureSession: { type: "apiKey", in: "cookie", name: "__Host-tubule_session" },
      },
    },
  };
}

const schemaRef = (id: string): string => `#/components/schemas/${id}`;

/** zod points into its own `$defs`; the document keeps its schemas under `components`. */
function relink(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(relink);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, each]) => [
      key,
      key === "$ref" ? String(each).replace("#/$defs/", "#/components/schemas/") : relink(each),
    ]),
  );
}
const withoutId = ({ id: _id, ...schema }: Json): Json => schema;

function describe(name: RouteName, schemaOf: (s: z.ZodType, io: "input" | "output") => Json): Json {
  const operation: Operation = operations[name];
  const route: { method: string; path: string; roles: unknown } = routes[name];
  const member = route.roles !== "anyone";
  const parameters = [
    ...[...route.path.matchAll(/:(\w+)/g)].map(([, parameter]) => ({
      name: parameter,
      in: "path",
      required: true,
      schema: { type: "string", format: "uuid" },
    })),
    ...(operation.query ? queryParameters(operation.query) : []),
    ...(member && route.method !== "GET" ? [keyParameter] : []),
  ];
  return {
    operationId: name,
    tags: [operation.tag],
    summary: operation.summary,
    description: member ? `For ${rolesText(route.roles)}.` : "Needs no session.",
    ...(member ? { security: [{ session: [] }, { secureSession: [] }] } : {}),
    ...(parameters.length > 0 ? { parameters } : {}),
    ...(operation.body
      ? {
          requestBody: {
            required: true,
            content: { "application/json": { schema: schemaOf(operation.body, "input") } },
          },
        }
      : {}),
    responses: {
      [operation.status]: {
        description: "Done",
        content: isFile(operation.answer)
          ? Object.fromEntries(operation.answer.media.map((each) => [each, {}]))
          : { "application/json": { schema: schemaOf(operation.answer, "output") } },
      },
      ...problemResponses([...operation.problems, ...sharedProblems(name)], schemaOf),
    },
  };
}

const rolesText = (roles: unknown): string =>
  Array.isArray(roles) ? roles.join(", ") : "anybody who is signed in";

const keyParameter = {
  name: "Idempotency-Key",
  in: "header",
  required: true,
  description: "New for each new request, the same when the same request is sent again.",
  schema: { type: "string", minLength: 8, maxLength: 128 },
};

function queryParameters(query: z.ZodType): Json[] {
  const { $defs, ...root } = z.toJSONSchema(query, {
    target: "draft-2020-12",
    io: "input",
  }) as Json;
  // A schema with a name of its own is a definition that the root merely points at.
  const schema = (Object.values($defs ?? {})[0] ?? root) as Json;
  const required = (schema["required"] ?? []) as string[];
  return Object.entries((schema["properties"] ?? {}) as Json).map(([name, each]) => ({
    name,
    in: "query",
    required: required.includes(name),
    schema: each,
  }));
}

function problemResponses(
  codes: readonly ProblemCode[],
  schemaOf: (schema: z.ZodType, io: "output") => Json,
): Json {
  const byStatus = new Map<number, ProblemCode[]>();
  for (const code of codes) {
    const { status } = problemCodes[code];
    byStatus.set(status, [...(byStatus.get(status) ?? []), code]);
  }
  return Object.fromEntries(
    [...byStatus].map(([status, each]) => [
      status,
      {
        description: each.map((code) => `${code}: ${problemCodes[code].title}`).join("; "),
        content: { "application/problem+json": { schema: schemaOf(ProblemBody, "output") } },
      },
    ]),
  );
}
