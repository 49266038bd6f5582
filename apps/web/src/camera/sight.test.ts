import { describe, expect, test } from "@jest/globals";
import { makeContainerCode } from "#domain";
import { makeOneLabel, readSight } from "./sight.ts";

const today = "2026-11-25";
// 952 is GS1's own prefix for demonstrations.
const gtin = "0109520000001070";
describe("a symbol is for", () => {
  const cases: [string, string, string][] = [
    ["the practice's own code", makeContainerCode(7), "own"],
    ["a label with its lot", `]d2${gtin}1727103110DF-118O`, "whole"],
    ["the product alone", `]d2${gtin}`, "product"],
    ["a bare article number", "]E09520000001070", "product"],
    ["the lot alone", "]C11727103110DF-118O", "lot"],
    ["no label", "]Q1https://poster.example/", "other"],
  ];
  test.each(cases)("%s", (_what, text, part) => {
    expect(readSight(text, today).part).toBe(part);
  });
});

test("two symbols make one label when they fit together", () => {
  expect(makeOneLabel(`]C1${gtin}`, "]C11727103110DF-118O", today)).toBe(true);
  expect(makeOneLabel(`]C1${gtin}`, "]C10109520000001230", today)).toBe(false);
});
