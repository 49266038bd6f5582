import { expect, test } from "@jest/globals";
import { builtInSheets } from "#domain";
import { sayBuiltInSheets } from "./labels.ts";

test("the help names every built-in sheet by what --sheet takes, and its measures", () => {
  const lines = sayBuiltInSheets().trimEnd().split("\n");
  expect(lines.length).toBe(builtInSheets.length);
  for (const [index, { id, name }] of builtInSheets.entries()) {
    expect(lines[index]!.trim().split(/\s{2,}/)).toEqual([id, name]);
  }
});
