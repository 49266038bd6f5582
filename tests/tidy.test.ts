/**
 * The house rules as a test: who may import whom, sizes, names, what is left undone. Applied to
 * every file of the project; what is exempt is said in the rules themselves (`tests/tidy/`): the
 * body of a `describe` may be longer than a function, a constructor may be given more than three.
 */
import { describe, expect, test } from "@jest/globals";
import { checkFile } from "./tidy/file-rules.ts";
import { besideChecks, checkImports } from "./tidy/import-rules.ts";
import { isCode, listFiles, type SourceFile, type Violation } from "./tidy/source-files.ts";

const files = listFiles(".");
const code = files.filter(isCode);
// It holds what is forbidden, to prove that it is found.
const own = "tests/tidy.test.ts";
const rulesOwn = "tests/tidy/file-rules.ts";

const say = (violations: readonly Violation[]) =>
  violations.map(({ rule, path, line, what }) => `${path}:${line} ${rule}: ${what}`);
const under = (folder: string) => code.filter((file) => file.path.startsWith(`${folder}/`));

test("the files were found, in each part of the project", () => {
  const least = { libs: 60, "apps/api": 50, "apps/cli": 8, "apps/web": 40, tests: 15 };
  for (const [folder, number] of Object.entries(least)) {
    expect([folder, under(folder).length >= number]).toEqual([folder, true]);
  }
  expect(files.filter(({ path }) => path.startsWith("migrations/")).length).toBeGreaterThan(6);
  expect(files.some(({ path }) => path.includes("node_modules"))).toBe(false);
});

describe("every file", () => {
  const violations = files
    .filter(({ path }) => path !== own)
    .flatMap(checkFile)
    .filter(({ path, rule }) => !(path === rulesOwn && /left-undone|place-of/.test(rule)));
  const broken = (rule: string) => say(violations.filter((each) => each.rule === rule));

  test("has at most 400 lines", () => expect(broken("file-length")).toEqual([]));
  test("has lines of at most 100 columns", () => expect(broken("line-length")).toEqual([]));
  test("is named in kebab-case, or as its component or hook is", () =>
    expect(broken("file-name")).toEqual([]));
  test("and everything in it has a name that says something", () =>
    expect(broken("empty-name")).toEqual([]));
  test("has functions of at most 70 lines", () => expect(broken("function-length")).toEqual([]));
  test("has functions of at most three parameters", () => expect(broken("parameters")).toEqual([]));
  test("does without the type any", () => expect(broken("any")).toEqual([]));
  test("is finished", () => expect(broken("left-undone")).toEqual([]));
  test("speaks of the product alone", () => expect(broken("place-of-writing")).toEqual([]));
  test("of tests leaves no test out", () => expect(broken("test-left-out")).toEqual([]));
  test("of tests makes nothing believe", () => expect(broken("make-believe")).toEqual([]));
});

test("everybody imports only what the table allows", () => {
  expect(say(code.flatMap(checkImports))).toEqual([]);
});

test("the migrations are numbered without a gap", () => {
  const names = files.flatMap(({ path }) => /^migrations\/(\d{4})-.*\.sql$/.exec(path)?.[1] ?? []);
  expect(names.length).toBeGreaterThan(0);
  expect(names).toEqual(names.map((_, i) => String(i + 1).padStart(4, "0")));
});

test("every check has its file, named as its code, in the table and tested", () => {
  const folder = "libs/domain/checks/";
  const checks = under("libs/domain/checks")
    .map(({ path }) => path)
    .filter((path) => !besideChecks.test(path) && !/\.(test|fixture)\.ts$/.test(path));
  expect(checks.length).toBeGreaterThan(10);
  const textOf = (path: string) => files.find((file) => file.path === path)?.text ?? "";
  const table = textOf(`${folder}all-checks.ts`);
  const listed = /allChecks.*?= \[([^\]]*)\]/s.exec(table)?.[1] ?? "";
  for (const path of checks) {
    const name = path.slice(folder.length, -".ts".length);
    const [, value] = new RegExp(`import \\{ (\\w+) \\} from "./${name}.ts"`).exec(table) ?? [];
    expect([name, new RegExp(`\\b${value}\\b`).test(listed)]).toEqual([name, true]);
    expect([name, textOf(path).includes(`"${name}"`)]).toEqual([name, true]);
    expect([name, textOf(`${folder}${name}.test.ts`) === ""]).toEqual([name, false]);
  }
  expect(listed.split(",").filter((each) => each.trim() !== "").length).toBe(checks.length);
});

test("the lock file names no host: who installs says from where", () => {
  const lock = files.find(({ path }) => path === "package-lock.json")!.text;
  expect(lock).toContain('"lockfileVersion"');
  expect(lock).not.toContain('"resolved"');
  expect(lock).not.toMatch(
    /https?:\/\/(?!(\w+\.)*(github\.com|opencollective\.com|paypal\.me)|\S+fund|\S*sponsor)[^"]*\.tgz/,
  );
});

describe("a planted violation is found:", () => {
  const long = Array.from({ length: 71 }, (_, i) => `  use(${i});`).join("\n");
  const planted: [rule: string, file: SourceFile][] = [
    ["file-length", { path: "libs/domain/a.ts", text: "a();\n".repeat(401) }],
    ["line-length", { path: "libs/domain/a.ts", text: `// ${"b ".repeat(50)}\n` }],
    ["line-length", { path: "migrations/0001-a.sql", text: `select ${"a, ".repeat(40)}b;\n` }],
    ["file-name", { path: "libs/domain/FileName.ts", text: "" }],
    ["file-name", { path: "apps/api/src/useThing.ts", text: "" }],
    ["file-name", { path: "apps/web/src/tray/my_file.ts", text: "" }],
    ["empty-name", { path: "libs/domain/utils.ts", text: "" }],
    ["empty-name", { path: "libs/domain/stock-manager.ts", text: "" }],
    ["empty-name", { path: "libs/a.ts", text: "function handleScan() {}" }],
    ["empty-name", { path: "libs/a.ts", text: "const processRow = () => 1;" }],
    ["empty-name", { path: "libs/a.ts", text: "class StockManager {}" }],
    ["empty-name", { path: "libs/a.ts", text: "class A { handleScan() {} }" }],
    ["function-length", { path: "libs/a.ts", text: `function a() {\n${long}\n}` }],
    ["function-length", { path: "libs/a.ts", text: `const a = () => {\n${long}\n};` }],
    ["function-length", { path: "libs/a.test.ts", text: `test("a", () => {\n${long}\n});` }],
    ["parameters", { path: "libs/a.ts", text: "const a = (b, c, d, e) => b;" }],
    ["parameters", { path: "libs/a.ts", text: "class A { b(c, d, e, f) {} }" }],
    ["any", { path: "libs/a.ts", text: "const a: any = 1;" }],
    ["any", { path: "libs/a.ts", text: "class A { b(c: Map<string, any[]>) {} }" }],
    ["any", { path: "apps/web/src/A.tsx", text: "const a = b as any;" }],
    ["left-undone", { path: "libs/a.ts", text: "// TODO: later" }],
    ["place-of-writing", { path: "libs/a.ts", text: '// see "/home/somebody/notes"' }],
    ["place-of-writing", { path: "README.md", text: "As told in issue 12." }],
    ["place-of-writing", { path: "libs/a.ts", text: "// mended (#41)" }],
    ["test-left-out", { path: "libs/a.test.ts", text: 'test.skip("a", () => {});' }],
    ["test-left-out", { path: "tests/db/a.test.ts", text: 'describe.only("a", () => {});' }],
    ["test-left-out", { path: "tests/db/a.test.ts", text: 'xit("a", () => {});' }],
    ["make-believe", { path: "tests/db/a.test.ts", text: 'jest.mock("pg");' }],
  ];
  test.each(planted)("%s", (rule, file) => {
    expect(checkFile(file).map((each) => each.rule)).toContain(rule);
  });

  const crossing: [path: string, text: string][] = [
    ["libs/labels/a.ts", 'import { x } from "#domain";'],
    ["libs/labels/a.ts", 'import { readFile } from "node:fs";'],
    ["libs/labels/a.ts", 'import { x } from "../domain/index.ts";'],
    ["libs/labels/a.ts", 'import x from "zod";'],
    ["libs/labels/a.ts", 'import { x } from "./b";'],
    ["libs/domain/a.ts", 'import { x } from "#contracts/stock";'],
    ["libs/domain/checks/past-use-by.ts", 'import { missing } from "./missing.ts";'],
    ["libs/contracts/a.ts", 'import { say } from "#texts";'],
    ["libs/texts/a.ts", 'import { Move } from "#contracts/stock";'],
    ["apps/web/src/a.ts", 'import { x } from "../../api/src/config.ts";'],
    ["apps/web/src/a.ts", 'import { Move } from "#contracts/stock";'],
    ["apps/web/src/a.ts", 'import fs from "node:fs";'],
    ["apps/web/src/a.ts", 'const fastify = await import("fastify");'],
    ["apps/cli/src/a.ts", 'import { x } from "../../web/src/paths.ts";'],
    ["apps/api/src/stock/a.ts", 'import { x } from "../../../web/src/paths.ts";'],
    ["apps/api/src/stock/stock.controller.ts", 'import * as store from "./stock.store.ts";'],
    ["apps/api/src/stock/stock.controller.ts", 'import { x } from "../trays/trays.service.ts";'],
    ["apps/api/src/stock/stock.service.ts", 'import { x } from "../trays/trays.service.ts";'],
    ["apps/api/src/stock/stock.service.ts", 'import { x } from "./stock.controller.ts";'],
    ["apps/api/src/stock/stock.store.ts", 'import { Injectable } from "@nestjs/common";'],
    ["apps/api/src/stock/stock.store.ts", 'import { DataSource } from "typeorm";'],
    ["apps/api/src/stock/stock.store.ts", 'import { checkTray } from "#domain";'],
    ["apps/api/src/stock/stock.store.ts", 'import { Problem } from "../http/problem.ts";'],
    ["apps/api/src/stock/place.ts", 'import { x } from "./stock.service.ts";'],
    ["apps/api/src/db/a.ts", 'import { x } from "../stock/stock.store.ts";'],
    ["libs/domain/a.ts", 'import { x } from "../../tests/helpers/app.ts";'],
    ["libs/domain/a.ts", 'export * from "../labels/index.ts";'],
  ];
  test.each(crossing)("%s with %s", (path, text) => {
    expect(checkImports({ path, text }).map(({ rule }) => rule)).toEqual(["import"]);
  });

  const fine: [path: string, text: string][] = [
    ["libs/domain/a.ts", 'import { x } from "#labels";'],
    ["libs/texts/a.ts", 'import type { Move } from "#contracts/stock";'],
    ["apps/web/src/a.ts", 'import { type Move } from "#contracts/stock";'],
    ["apps/api/src/stock/stock.service.ts", 'import * as s from "../trays/trays.store.ts";'],
    ["libs/labels/a.test.ts", 'import { test } from "@jest/globals";'],
  ];
  test.each(fine)("but not %s with %s", (path, text) => {
    expect(checkImports({ path, text })).toEqual([]);
  });
  test("but not a long suite, three parameters, or what the product does", () => {
    const texts = [
      `describe("a", () => {\n${long}\n});`,
      "const a = (b, c, d) => b;",
      "a.process();",
    ];
    for (const text of texts) expect(checkFile({ path: "libs/a.test.ts", text })).toEqual([]);
  });
});
