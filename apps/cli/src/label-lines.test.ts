import { readFileSync } from "node:fs";
import { describe, expect, test } from "@jest/globals";
import { scannerSetUpSymbols } from "#labels";
import { readLabelLines, splitLines, type LabelLineCounts } from "./label-lines.ts";

type Vector = {
  id: string;
  input: string | string[];
  options: object;
  expect:
    | { ok: true; fields: object }
    | { ok: false; error: { kind: string; also_acceptable?: string[] } };
};

async function* streamOf<Piece>(...pieces: Piece[]): AsyncGenerator<Piece> {
  for (const piece of pieces) {
    await Promise.resolve();
    yield piece;
  }
}

async function linesOf(...chunks: (string | Uint8Array)[]): Promise<string[]> {
  const lines: string[] = [];
  for await (const line of splitLines(streamOf(...chunks))) lines.push(line);
  return lines;
}

async function answersTo(...lines: string[]): Promise<object[]> {
  const { answers } = await run(lines);
  return answers;
}

async function run(lines: string[]): Promise<{ answers: object[]; counts: LabelLineCounts }> {
  const answers: object[] = [];
  const options = { today: "2026-06-15", associations: "enforce" } as const;
  const counts = await readLabelLines(streamOf(...lines), options, (line) => {
    expect(line).not.toContain("\n");
    const answer: object = JSON.parse(line);
    answers.push(answer);
  });
  return { answers, counts };
}

describe("lines", () => {
  test("end at line feeds alone, however the stream is cut", async () => {
    const text = "a\u001db\r\n\u2028c\u0085\u000bd\re\n\nlast";
    const lines = ["a\u001db", "\u2028c\u0085\u000bd\re", "", "last"];
    expect(await linesOf(text)).toEqual(lines);
    expect(await linesOf(...Array.from(text))).toEqual(lines);
    expect(await linesOf(...Array.from(Buffer.from(text), (byte) => Uint8Array.of(byte)))).toEqual(
      lines,
    );
  });

  test("are only those that are there", async () => {
    expect(await linesOf()).toEqual([]);
    expect(await linesOf("")).toEqual([]);
    expect(await linesOf("a\n")).toEqual(["a"]);
    expect(await linesOf("\n\n")).toEqual(["", ""]);
  });

  test("without an end are cut, and the next one is whole", async () => {
    const [long, next] = await linesOf("A".repeat(700_000), "A".repeat(700_000), "B\nnext\n");
    expect(long).toHaveLength((1 << 20) + 1);
    expect(next).toBe("next");
  });

  test("of broken UTF-8 keep their place", async () => {
    expect(await linesOf(Uint8Array.of(0x41, 0xc3))).toEqual(["A\ufffd"]);
  });
});

describe("tubule label", () => {
  const read = {
    ok: true,
    scheme: "gs1",
    elements: [
      { ai: "01", value: "09506000134352" },
      { ai: "10", value: "ABC" },
    ],
    fields: { gtin: "09506000134352", lot: "ABC" },
    warnings: [],
  };

  test.each([
    ["raw", "]d2010950600013435210ABC"],
    ["raw with a separator in it", "]d20109506000134352\u001d10ABC"],
    ["JSON text", JSON.stringify("]d20109506000134352\u001d10ABC")],
    ["JSON array of scans", JSON.stringify(["]C10109506000134352", "]C110ABC"])],
    ["JSON object", JSON.stringify({ input: "(01)09506000134352(10)ABC" })],
  ])("reads %s", async (_, line) => {
    expect(await answersTo(line)).toEqual([read]);
  });

  test("writes one answer a line and counts the refused", async () => {
    const { answers, counts } = await run([
      "]E09506000134352",
      "",
      "+A123BJC5D6E71F",
      "]E496385074",
    ]);
    expect(counts).toEqual({ read: 4, refused: 2 });
    expect(answers).toEqual([
      { ok: true, scheme: "gtin", fields: { gtin: "09506000134352" }, warnings: [] },
      { ok: false, error: { kind: "empty_input", at: 0, length: 0 } },
      { ok: false, error: { kind: "invalid_check_character", at: 14, length: 1 } },
      { ok: true, scheme: "gtin", fields: { gtin: "00000096385074" }, warnings: [] },
    ]);
  });

  test("lets a line's own options go before those of the command", async () => {
    const label = "]d2010950600013435210ABC<GS>17771231";
    const line = (options: object) => JSON.stringify({ id: "x", input: label, options });
    const [withToken, later, strict] = await answersTo(
      line({ gs_tokens: ["<GS>"] }),
      line({ gs_tokens: ["<GS>"], reference_date: "2030-01-01" }),
      line({ permit_zero_suppressed_gtin: false }),
    );
    expect(withToken).toMatchObject({
      fields: { expiry: { date: "1977-12-31" } },
      warnings: ["separator_substituted"],
    });
    expect(later).toMatchObject({ fields: { expiry: { date: "2077-12-31" } } });
    expect(strict).toMatchObject({
      fields: { lot: "ABC<GS>17771231" },
      warnings: ["separator_suspected"],
    });
    const short = { input: "https://a/01/9506000134352" };
    const permitted = { ...short, options: { permit_zero_suppressed_gtin: true } };
    expect(await answersTo(JSON.stringify(short), JSON.stringify(permitted))).toMatchObject([
      { ok: false, error: { kind: "value_too_short", ai: "01" } },
      { ok: true, fields: { gtin: "09506000134352" } },
    ]);
    const lone = { input: "]C110ABC", options: { associations: "defer" } };
    expect(await answersTo("]C110ABC", JSON.stringify(lone))).toMatchObject([
      { ok: false, error: { kind: "missing_companion_ai", ai: "10" } },
      { ok: true, warnings: ["missing_companion_ai"] },
    ]);
  });

  test("answers every label vector as the vector says", async () => {
    const fixture = new URL("../../../libs/labels/vectors.fixture.json", import.meta.url);
    const { vectors } = JSON.parse(readFileSync(fixture, "utf8")) as { vectors: Vector[] };
    expect(vectors.length).toBeGreaterThanOrEqual(94);
    const answers = await answersTo(
      ...vectors.map(({ input, options }) => JSON.stringify({ input, options })),
    );
    for (const [index, { id, expect: wanted }] of vectors.entries()) {
      const answer = answers[index] as { ok: boolean; fields?: object; error?: { kind: string } };
      const told = [id, answer.ok, answer.fields];
      expect(told).toEqual([id, wanted.ok, wanted.ok ? wanted.fields : undefined]);
      if (wanted.ok) continue;
      const kinds = [wanted.error.kind, ...(wanted.error.also_acceptable ?? [])];
      expect([id, kinds]).toEqual([id, expect.arrayContaining([answer.error?.kind])]);
    }
  });

  test("takes the command's separators, and a line's own before them", async () => {
    const line = "]d2010950600013435210ABC~17771231";
    const options = { today: "2026-06-15", associations: "enforce", gsTokens: ["~"] } as const;
    const own = JSON.stringify({ input: line, options: { gs_tokens: ["#"] } });
    const answers: unknown[] = [];
    await readLabelLines(streamOf(line, own), options, (text) => answers.push(JSON.parse(text)));
    expect(answers).toMatchObject([
      { ok: true, fields: { lot: "ABC" }, warnings: ["separator_substituted"] },
      { ok: false, error: { kind: "invalid_character", ai: "10" } },
    ]);
  });

  test("finds out what a scanner made of the two set-up symbols", async () => {
    const text = (key: string) => scannerSetUpSymbols.find((one) => one.key === key)!.text;
    const [gs1, hibc] = [text("gs1"), text("hibc")];
    const scanner = (made: object) => JSON.stringify({ scanner: { gs1, hibc, ...made } });
    const [substituted, lost, trimmed] = await answersTo(
      scanner({ gs1: `${gs1.replace("\u001d", "{GS}")}\r`, hibc: `${hibc}\r` }),
      scanner({ gs1: gs1.replace("\u001d", "") }),
      scanner({ hibc: hibc.trimEnd() }),
    );
    expect(substituted).toMatchObject({
      ok: true,
      profile: { gsTokens: ["{GS}"], endKey: "Enter" },
      findings: expect.arrayContaining([
        { kind: "separator-substituted", fix: "set-right-here", text: "{GS}" },
      ]),
    });
    const change = (kind: string) => ({
      ok: false,
      profile: null,
      findings: expect.arrayContaining([
        expect.objectContaining({ kind, fix: "change-the-scanner" }),
      ]),
    });
    expect(lost).toMatchObject(change("separator-lost"));
    expect(trimmed).toMatchObject(change("last-character-lost"));
  });

  test("reads the labels of one pack together", async () => {
    const box = "]d2010950600013435210L1";
    const bottle = ["]C10109506000134352", "]C110L1"];
    const pack = (...labels: unknown[]) => JSON.stringify({ pack: labels });
    const { answers, counts } = await run([
      pack(box, bottle),
      pack(box, "]d2010950600013435210L2"),
      pack(box, ""),
      pack(),
    ]);
    expect(counts).toEqual({ read: 4, refused: 3 });
    const [agreeing, conflicting, half, none] = answers;
    expect(agreeing).toMatchObject({
      ok: true,
      items: [{ labels: [0, 1], fields: { lot: "L1" } }],
      conflicts: [],
      labels: [{ scheme: "gs1" }, { scheme: "gs1" }],
    });
    expect(conflicting).toMatchObject({
      ok: false,
      conflicts: [{ field: "lot", standing: "conflict", values: ["L1", "L2"] }],
    });
    expect(half).toMatchObject({ ok: false, conflicts: [], labels: [{ ok: true }, { ok: false }] });
    expect(none).toEqual({ ok: false, items: [], lines: [], conflicts: [], labels: [] });
  });

  test("takes for a raw label what only looks like JSON", async () => {
    const message = "[)>\u001e06\u001d9N111234567842\u001d1TLOT9\u001e\u0004";
    expect(await answersTo(message)).toMatchObject([{ ok: true, scheme: "ifa-ppn" }]);
    const lines = [
      '"unclosed',
      "{}",
      "[1]",
      '{"input":5}',
      '{"pack":[1]}',
      '{"scanner":{"gs1":""}}',
      "[",
      "{GS}01",
    ];
    for (const answer of await answersTo(...lines)) expect(answer).toMatchObject({ ok: false });
  });

  test.each([
    { reference_date: "soon" },
    { associations: "maybe" },
    { gs_tokens: "<GS>" },
    { gs_tokens: [1] },
    { permit_zero_suppressed_gtin: 1 },
  ])("does not guess at malformed options %j", async (options) => {
    expect(await answersTo(JSON.stringify({ input: "]E09506000134352", options }))).toMatchObject([
      { ok: false, error: { kind: "unrecognized_format", at: 0 } },
    ]);
  });

  test("names the scan at fault among several", async () => {
    expect(await answersTo(JSON.stringify(["]C10109506000134352", "]C117261331"]))).toEqual([
      { ok: false, error: { kind: "invalid_date", at: 7, length: 2, ai: "17", part: 1 } },
    ]);
  });

  test("never trims: the check character of HIBC may be a space", async () => {
    expect(await answersTo("+A99912345/$LOT7 ", "+A99912345/$LOT7")).toMatchObject([
      { ok: true, fields: { lot: "LOT7", check_character: " " } },
      { ok: false, error: { kind: "invalid_check_character" } },
    ]);
  });
});
