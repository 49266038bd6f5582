import { describe, expect, test } from "@jest/globals";
import { aProduct, aStep } from "./facts.fixture.ts";
import { planSeconds } from "./planned-seconds.ts";

describe("the time of a timed part", () => {
  const step = aStep("primer", { airDrySeconds: 5 });

  test("is the IFU's where it asks for longer than the technique plans", () => {
    const water = aProduct({ airDrySeconds: 10 });
    expect(planSeconds(step, [water], "airDrySeconds")).toEqual({ seconds: 10, from: "ifu" });
  });

  test("is the technique's where the IFU asks for as long, or less, or says nothing", () => {
    for (const airDrySeconds of [5, 4, null]) {
      const product = aProduct({ airDrySeconds });
      expect(planSeconds(step, [product], "airDrySeconds")).toEqual({
        seconds: 5,
        from: "technique",
      });
    }
  });

  test("is the longest of several products at one step", () => {
    const products = [aProduct({ airDrySeconds: 10 }), aProduct({ airDrySeconds: 15 })];
    expect(planSeconds(step, products, "airDrySeconds")?.seconds).toBe(15);
  });

  test("is null where neither times the part", () => {
    const untimed = aStep("primer", { cureSeconds: null });
    const product = aProduct({ cureSeconds: null });
    expect(planSeconds(untimed, [product], "cureSeconds")).toBeNull();
  });
});
