/** The project's own files, and what a parser finds in those that are code. */
import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { parseSync } from "@swc/core";

export interface SourceFile {
  /** From the project's root, with forward slashes. */
  path: string;
  text: string;
}

/** Something against a rule, with the place to look at. */
export interface Violation {
  rule: string;
  path: string;
  line: number;
  what: string;
}

const ownFolders = ["apps", "libs", "tests", "migrations", "shared", ".ci"];
const notOurs = /^(node_modules|dist|data|\.git|\.cache)$/;
const textual = /\.(ts|tsx|mjs|js|css|html|sql|json|md|yml|yaml)$|^\.ci\/run$/;

export function listFiles(root: string): SourceFile[] {
  const inFolder = (folder: string): string[] =>
    readdirSync(path.join(root, folder), { withFileTypes: true }).flatMap((entry) => {
      const name = path.posix.join(folder, entry.name);
      if (entry.isDirectory()) return notOurs.test(entry.name) ? [] : inFolder(name);
      return [name];
    });
  const onTop = readdirSync(root, { withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => entry.name);
  return [...onTop, ...ownFolders.flatMap(inFolder)]
    .filter((name) => textual.test(name))
    .sort()
    .map((name) => ({ path: name, text: readFileSync(path.join(root, name), "utf8") }));
}

export const isCode = ({ path: name }: SourceFile): boolean => /\.(ts|tsx|mjs)$/.test(name);
/** Tests and the samples that they share. */
export const isTest = ({ path: name }: SourceFile): boolean => /\.(test|fixture)\.tsx?$/.test(name);

/** A node of the syntax tree; what else it has depends on its type. */
export interface Node {
  type: string;
  span: { start: number; end: number };
  [field: string]: unknown;
}

/** A few parts have a type and no place. */
const isNode = (value: unknown): value is Node =>
  typeof value === "object" && value !== null && "type" in value && "span" in value;

export interface Parsed extends SourceFile {
  tree: Node;
  lineOf(node: Node): number;
  /** How many lines it covers. */
  linesOf(node: Node): number;
}

/** The parser counts bytes, from 1. */
export function parse(file: SourceFile): Parsed {
  const tree = parseSync(file.text, {
    syntax: "typescript",
    tsx: file.path.endsWith("x"),
    decorators: true,
    target: "es2022",
  }) as unknown as Node;
  const bytes = Buffer.from(file.text);
  const breaks: number[] = [];
  for (let at = bytes.indexOf(10); at >= 0; at = bytes.indexOf(10, at + 1)) breaks.push(at);
  const lineAt = (offset: number): number => {
    let [low, high] = [0, breaks.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (breaks[middle]! < offset) low = middle + 1;
      else high = middle;
    }
    return low + 1;
  };
  return {
    ...file,
    tree,
    lineOf: ({ span }) => lineAt(span.start - 1),
    linesOf: ({ span }) => lineAt(span.end - 2) - lineAt(span.start - 1) + 1,
  };
}

/** Every node with those around it, the outermost first. Some parts are objects without a type. */
export function* walk(
  value: unknown,
  around: readonly Node[] = [],
): Generator<[Node, readonly Node[]]> {
  if (typeof value !== "object" || value === null) return;
  const inner = isNode(value) ? [...around, value] : around;
  if (isNode(value)) yield [value, around];
  for (const each of Object.values(value)) yield* walk(each, inner);
}

export interface Import {
  from: string;
  /** Gone before it runs. */
  typeOnly: boolean;
  /** What is left of it when it runs. */
  names: string[];
  line: number;
}

interface Specifier {
  isTypeOnly?: boolean;
  /** As the other file calls it, where that differs. */
  imported?: { value: string } | null;
  local?: { value: string };
  orig?: { value: string };
}

export function importsOf(parsed: Parsed): Import[] {
  const found: Import[] = [];
  for (const [node] of walk(parsed.tree)) {
    const line = parsed.lineOf(node);
    const source = node["source"] as { value: string } | null | undefined;
    const specifiers = (node["specifiers"] ?? []) as Specifier[];
    if (/^(Import|ExportNamed|ExportAll)Declaration$/.test(node.type) && source) {
      const kept = specifiers.filter(({ isTypeOnly }) => isTypeOnly !== true);
      const each = specifiers.length > 0 && kept.length === 0;
      const names = kept.map(({ imported, local, orig }) => (imported ?? local ?? orig)!.value);
      const typeOnly = node["typeOnly"] === true || each;
      found.push({ from: source.value, typeOnly, names, line });
    }
    const callee = node["callee"] as Node | undefined;
    if (node.type === "CallExpression" && callee?.type === "Import") {
      const [first] = node["arguments"] as { expression: { value?: unknown } }[];
      const from = first?.expression.value;
      if (typeof from === "string") found.push({ from, typeOnly: false, names: [], line });
    }
  }
  return found;
}
