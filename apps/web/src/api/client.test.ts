import { describe, expect, test } from "@jest/globals";
import { addressOf } from "./client.ts";
import { ApiProblem } from "./problem.ts";
import { makeUuid } from "./uuid.ts";

describe("an address of the API", () => {
  test("has its parameters filled in and escaped", () => {
    expect(addressOf("getTray", { params: { trayId: "a/b?c" } })).toBe("/api/v1/trays/a%2Fb%3Fc");
  });

  test("carries a query without what is undefined", () => {
    expect(addressOf("listRecords", { query: { lot: "A&B", chart: undefined, limit: 5 } })).toBe(
      "/api/v1/records?lot=A%26B&limit=5",
    );
  });

  test("is refused where a parameter is missing", () => {
    expect(() => addressOf("getTray", {})).toThrow("trayId");
  });
});

describe("a problem", () => {
  test("is known by the last part of its type, whatever address stands before it", () => {
    for (const type of ["/problems/locked-out", "https://tubule.example/problems/locked-out"]) {
      const body = { type, detail: "Wait.", retryAfterSeconds: 30 };
      expect(new ApiProblem(body, 429)).toMatchObject({
        code: "locked-out",
        detail: "Wait.",
        values: { retryAfterSeconds: 30 },
      });
    }
  });

  test("of no known type, as of a proxy in between, is still one of the list", () => {
    expect(new ApiProblem({}, 502).code).toBe("internal-error");
    expect(new ApiProblem({ type: "about:blank" }, 404).code).toBe("not-found");
    expect(new ApiProblem({ type: "/problems/toString" }, 418).code).toBe("internal-error");
  });

  test("names the fields that are wrong, and nothing that is no such list", () => {
    const errors = [{ path: "/body/lot", message: "too long" }, { path: 3 }, null];
    expect(new ApiProblem({ errors }, 422).errors).toEqual([errors[0]]);
    expect(new ApiProblem({ errors: "all" }, 422).errors).toEqual([]);
  });
});

describe("a UUID", () => {
  test("has the form of version 7 and the time in front", () => {
    const uuid = makeUuid(Date.UTC(2100, 0, 1));
    expect(uuid).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(Number.parseInt(uuid.slice(0, 13).replace("-", ""), 16)).toBe(Date.UTC(2100, 0, 1));
  });

  test("sorts after every earlier one, also within a millisecond and when the clock goes back", () => {
    const times = [5000, 5000, 5000, 4000, 6000];
    const uuids = Array.from({ length: 10_000 }, (_, index) =>
      makeUuid(Date.UTC(2101, 0, 1) + times[index % times.length]!),
    );
    expect([...uuids].sort()).toEqual(uuids);
    expect(new Set(uuids).size).toBe(uuids.length);
  });
});
