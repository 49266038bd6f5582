import { describe, expect, test } from "@jest/globals";
import { ApiProblem, Unreachable } from "../api/problem.ts";
import { keepAttempts, makeAttempt, markAttempt, readAttempts, renewAttempt } from "./attempts.ts";

const body = { barcodes: ["0109520000001018"], locationId: "store", quantity: 2 };
const problem = (code: string, status: number, more: object = {}) =>
  new ApiProblem({ type: `/problems/${code}`, ...more }, status);

describe("a pack that was not received", () => {
  const attempt = makeAttempt(body);

  test("stays unsent under its key while nobody knows what became of it", () => {
    const unknown = [
      new Unreachable(new Error("no network")),
      problem("internal-error", 500),
      problem("request-in-progress", 409),
    ];
    for (const error of unknown) {
      const marked = markAttempt(attempt, error);
      expect(marked).toMatchObject({ state: "unsent", refusal: null });
      expect(renewAttempt(marked)).toEqual({ ...attempt, state: "sending" });
    }
  });

  test("is refused with the server's reason and its values", () => {
    const marked = markAttempt(attempt, problem("expired-delivery", 409, { useBy: "2025-01-01" }));
    expect(marked.state).toBe("refused");
    expect(marked.refusal).toEqual({
      code: "expired-delivery",
      values: { useBy: "2025-01-01" },
      errors: [],
    });
  });

  test("goes under a new key once it was refused, with what its label lacked", () => {
    const refused = markAttempt(attempt, problem("label-incomplete", 422));
    const again = renewAttempt(refused, { lot: "A1", acceptWithoutUseBy: true });
    expect(again.key).not.toBe(attempt.key);
    expect(again).toMatchObject({
      body: { ...body, lot: "A1", acceptWithoutUseBy: true },
      state: "sending",
      refusal: null,
    });
  });
});

describe("what is kept of a delivery", () => {
  test("is read again as it was, each delivery its own, and gone once nothing is left", () => {
    const attempts = [makeAttempt(body), makeAttempt({ ...body, quantity: 1 })];
    keepAttempts("d1", attempts);
    expect(readAttempts("d1")).toEqual(attempts);
    expect(readAttempts("d2")).toEqual([]);
    keepAttempts("d1", []);
    expect(readAttempts("d1")).toEqual([]);
  });
});
