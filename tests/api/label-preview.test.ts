import { afterAll, beforeAll, expect, test } from "@jest/globals";
import type { QueryOf } from "#contracts/operations";
import { openApp, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

const preview = (query: QueryOf<"previewLabel">) =>
  it.practice.assistant.call("previewLabel", { query });
const svgOf = async (query: QueryOf<"previewLabel">) => (await preview(query)).ok.text();

test("a label is shown as its run would draw it, without a run", async () => {
  const { first } = await make.received(await make.usualProduct("primer"));
  const subject = { kind: "container", id: first.id } as const;
  const shown = await svgOf({ ...subject, size: "syringe" });
  expect((await it.practice.office.call("listLabelRuns")).ok.runs).toEqual([]);
  const { id: runId } = (
    await it.practice.assistant.call("makeLabels", { body: { subjects: [subject] } })
  ).ok;
  const query = { format: "svg", size: "syringe" } as const;
  const drawn = await it.practice.assistant.call("getLabelDocument", { params: { runId }, query });
  expect(shown).toBe(await drawn.ok.text());
});

test("it takes the size of any sheet or printer, and says when that is too small", async () => {
  const { first } = await make.received(await make.usualProduct("primer"));
  const subject = { kind: "container", id: first.id } as const;
  const shown = await svgOf({ ...subject, labelWidthUm: 38_100, labelHeightUm: 21_200 });
  expect(shown).toContain('viewBox="0 0 38.1 21.2"');
  const small = await preview({ ...subject, labelWidthUm: 5_000, labelHeightUm: 5_000 });
  expect(small.problem).toBe("label-too-small");
  const none = await preview({ ...subject, labelWidthUm: 0, labelHeightUm: 20_000 });
  expect(none.problem).toBe("invalid-request");
});

test("a place without a code is shown with room for it, and gets none by being shown", async () => {
  const subject = { kind: "location", id: make.places.refrigerator } as const;
  const symbols = (svg: string) => svg.match(/<path shape-rendering="crispEdges" d="M/g) ?? [];
  const before = await svgOf({ ...subject, size: "place" });
  expect(before).toContain("…");
  expect(symbols(before)).toHaveLength(0);
  expect(await svgOf({ ...subject, size: "place" })).toBe(before);
  const body = { subjects: [subject] };
  const { labels } = (await it.practice.assistant.call("makeLabels", { body })).ok;
  const after = await svgOf({ ...subject, size: "place" });
  expect(symbols(after)).toHaveLength(1);
  const code = labels[0]?.code ?? "";
  expect(after).toContain(`${code.slice(0, 3)}-${code.slice(3)}`);
});

test("what is outside the practice has no label", async () => {
  const { locations } = (await it.practice.office.call("listLocations")).ok;
  const outside = locations.find((place) => place.outside)!;
  expect((await preview({ kind: "location", id: outside.id })).problem).toBe("not-found");
});
