/** The document that is served: valid OpenAPI 3.1, whole, and true to the tables it comes from. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import { Validator } from "@seriousme/openapi-schema-validator";
import { isFile, type Operation } from "#contracts/operation";
import { operations } from "#contracts/operations";
import { problemCodes, type ProblemCode } from "#contracts/problem-codes";
import { apiPrefix, routes, type RouteName } from "#contracts/routes";
import { openApp, type TestApp } from "../helpers/app.ts";
import { faultOfProblem, RawClient } from "../helpers/raw.ts";

interface Described {
  operationId: string;
  summary: string;
  security?: unknown[];
  parameters?: { name: string; in: string; required: boolean; schema: object }[];
  requestBody?: { required: boolean; content: Record<string, { schema: object }> };
  responses: Record<string, { description: string; content: Record<string, { schema: object }> }>;
}
interface Document {
  openapi: string;
  paths: Record<string, Record<string, Described>>;
  components: { schemas: Record<string, object> };
}

let it: TestApp;
let client: RawClient;
let document: Document;
const get = (path: string) => client.send({ method: "GET", path, headers: {} });
beforeAll(async () => {
  it = await openApp();
  client = await RawClient.of(it);
  document = JSON.parse((await get(`${apiPrefix}/openapi.json`)).text) as Document;
});
afterAll(async () => {
  client.close();
  await it.close();
});

const names = Object.keys(routes) as RouteName[];
const codes = Object.keys(problemCodes) as ProblemCode[];

function described(name: RouteName): Described {
  const path = `${apiPrefix}${routes[name].path.replace(/:(\w+)/g, "{$1}")}`;
  return document.paths[path]![routes[name].method.toLowerCase()]!;
}

/** The codes that the descriptions of an operation's responses name, by their status. */
function codesOf({ responses }: Described): [number, string][] {
  return Object.entries(responses).flatMap(([status, { description }]) =>
    [...description.matchAll(/(?:^|; )([a-z-]+): /g)].map(([, code]): [number, string] => [
      Number(status),
      code!,
    ]),
  );
}

function refsIn(value: unknown): string[] {
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, each]) =>
    key === "$ref" ? [String(each)] : refsIn(each),
  );
}

describe("the OpenAPI document", () => {
  test("is valid OpenAPI 3.1", async () => {
    const result = await new Validator().validate({ ...document });
    expect(result.errors ?? []).toEqual([]);
    expect(result.valid).toBe(true);
    expect(document.openapi).toMatch(/^3\.1\./);
  });

  test("lists every operation under its address and no other", () => {
    const served = Object.values(document.paths).flatMap((path) =>
      Object.values(path).map(({ operationId }) => operationId),
    );
    expect(served.sort()).toEqual([...names].sort());
    for (const name of names) expect(described(name).operationId).toBe(name);
  });

  test("points at no schema that it does not hold, and holds none that nothing points at", () => {
    const wanted = new Set(refsIn(document).map((ref) => ref.replace("#/components/schemas/", "")));
    const held = new Set(Object.keys(document.components.schemas));
    expect([...wanted].filter((each) => !held.has(each))).toEqual([]);
    expect([...held].filter((each) => !wanted.has(each))).toEqual([]);
  });

  test.each(names)("says of %s what goes in, what comes out and every problem", (name) => {
    const one = described(name);
    const route: { method: string; path: string; roles: unknown } = routes[name];
    const operation: { body?: unknown; query?: unknown; problems: readonly ProblemCode[] } =
      operations[name];
    const told = codesOf(one);
    for (const [status, code] of told) {
      expect([code, problemCodes[code as ProblemCode]?.status]).toEqual([code, status]);
    }
    const listed = told.map(([, code]) => code);
    const member = route.roles !== "anyone";
    const writes = route.method !== "GET";
    const shared: [ProblemCode, boolean][] = [
      ["internal-error", true],
      ["not-signed-in", member],
      ["not-allowed", Array.isArray(route.roles)],
      ["invalid-request", "body" in operation || "query" in operation],
      ["idempotency-key-missing", member && writes],
      ["idempotency-key-reused", member && writes],
      ["foreign-origin", writes],
    ];
    const due = shared.filter(([, holds]) => holds).map(([code]) => code);
    expect(listed).toEqual(expect.arrayContaining([...operation.problems, ...due]));

    const done = one.responses[String(operations[name].status)];
    const { answer }: Operation = operations[name];
    const media = isFile(answer) ? answer.media : ["application/json"];
    expect(Object.keys(done!.content)).toEqual(media);
    for (const [status, { content }] of Object.entries(one.responses)) {
      if (Number(status) < 400) continue;
      expect(content["application/problem+json"]!.schema).toEqual({
        $ref: "#/components/schemas/Problem",
      });
    }
    const parameters = one.parameters ?? [];
    const inPath = parameters.filter((each) => each.in === "path").map((each) => each.name);
    expect(inPath).toEqual([...route.path.matchAll(/:(\w+)/g)].map(([, parameter]) => parameter));
    const inQuery = parameters.filter((each) => each.in === "query").map((each) => each.name);
    const asked = (operation.query as { shape?: object } | undefined)?.shape ?? {};
    expect(inQuery).toEqual(Object.keys(asked));
    const keyed = parameters.some(
      (each) => each.in === "header" && each.name === "Idempotency-Key",
    );
    expect(keyed).toBe(member && writes);
    expect(one.requestBody !== undefined).toBe("body" in operation);
    expect(one.security !== undefined).toBe(member);
  });

  test("takes no member in a request body that it does not name", () => {
    const open: string[] = [];
    const visit = (schema: unknown, path: string): void => {
      if (typeof schema !== "object" || schema === null) return;
      const one = schema as { type?: string; $ref?: string; additionalProperties?: unknown };
      if (one.$ref) {
        const name = one.$ref.replace("#/components/schemas/", "");
        visit(document.components.schemas[name], name);
        return;
      }
      if (one.type === "object" && one.additionalProperties !== false) open.push(path);
      for (const [key, each] of Object.entries(schema)) visit(each, `${path}/${key}`);
    };
    for (const name of names) {
      const body = described(name).requestBody?.content["application/json"]!.schema;
      if (body) visit(body, name);
    }
    expect(open).toEqual([]);
  });
});

describe("the page of a problem", () => {
  test.each(codes)("/problems/%s says what it is, in both languages", async (code) => {
    const page = await get(`/problems/${code}`);
    expect(page.status).toBe(200);
    expect(page.headers["content-type"]).toBe("text/html; charset=utf-8");
    expect(page.text).toContain(problemCodes[code].title);
    expect(page.text).toContain(`HTTP status ${problemCodes[code].status}`);
    expect(page.text).toMatch(/<p lang="de">[^<]{10,}/);
  });

  test.each(["no-such-problem", "constructor", "__proto__", "toString"])(
    "/problems/%s does not exist",
    async (code) => {
      const answer = await get(`/problems/${code}`);
      expect(answer.status).toBe(404);
      expect(faultOfProblem(answer)).toBeUndefined();
    },
  );
});

test("every answer forbids what a page of ours never needs", async () => {
  for (const path of [`${apiPrefix}/health`, `${apiPrefix}/people`, "/problems/not-found", "/x"]) {
    const { headers } = await get(path);
    expect([path, headers["x-content-type-options"]]).toEqual([path, "nosniff"]);
    expect([path, headers["referrer-policy"]]).toEqual([path, "no-referrer"]);
    const policy = String(headers["content-security-policy"]);
    expect([path, policy]).toEqual([path, expect.stringContaining("frame-ancestors 'none'")]);
    // The decoder of the camera is WebAssembly; nothing else may come from text.
    expect(policy.replace("'wasm-unsafe-eval'", "")).not.toContain("unsafe");
    expect(headers["x-powered-by"]).toBeUndefined();
  }
  expect((await get(`${apiPrefix}/health`)).headers["cache-control"]).toBe("no-store");
});
