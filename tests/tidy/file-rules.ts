/** What one file has to keep, whoever wrote it. Limits and names: the project's own house rules. */
import {
  isCode,
  isTest,
  parse,
  walk,
  type Node,
  type Parsed,
  type SourceFile,
  type Violation,
} from "./source-files.ts";

const limits = { file: 400, function: 70, line: 100, parameters: 3 };

type Found = Omit<Violation, "path">;

/** Every rule of a file by itself. A dump and a lock file are as long as they are. */
export function checkFile(file: SourceFile): Violation[] {
  const found = [...checkText(file), ...checkName(file)];
  if (isCode(file)) found.push(...checkCode(parse(file)));
  return found.map((each) => ({ ...each, path: file.path }));
}

const numbered = (text: string): [string, number][] =>
  text.split("\n").map((line, i) => [line, i + 1]);

function checkText(file: SourceFile): Found[] {
  const found: Found[] = [];
  const generated = ["migrations/schema.sql", "package-lock.json"].includes(file.path);
  const measured = /\.(ts|tsx|mjs|css|sql|html)$/.test(file.path) && !generated;
  // A colour is no number of a list, and a checksum no word.
  const speaks = !/\.(css|html)$|^package-lock\.json$/.test(file.path);
  const lines = numbered(file.text);
  const length = lines.length - (file.text.endsWith("\n") ? 1 : 0);
  if (measured && length > limits.file) {
    found.push({ rule: "file-length", line: length, what: `${length} lines` });
  }
  for (const [text, line] of lines) {
    // What is quoted within a line is one word: broken up, nobody would find it again. A text
    // without a blank can be broken by nobody.
    const columns = Array.from(text.replace(/(["`])(?:(?!\1)[^\\]|\\.)*\1/g, '""')).length;
    const breakable = /\S\s+\S/.test(text.trim());
    if (measured && breakable && columns > limits.line) {
      found.push({ rule: "line-length", line, what: `${columns} columns` });
    }
    if (/\b(TODO|FIXME|XXX|HACK)\b/.test(text)) {
      found.push({ rule: "left-undone", line, what: text.trim() });
    }
    for (const [what, pattern] of placeWords) {
      if (pattern.test(text) && speaks) {
        found.push({ rule: "place-of-writing", line, what: `${what}: ${text.trim()}` });
      }
    }
  }
  return found;
}

/** A file speaks of the product, never of the desk, the talk or the list it was written from. */
const placeWords: [string, RegExp][] = [
  ["a path of one machine", /(^|[\s"'`(=])\/(home|Users|root|workspace|work)\/\w/],
  [
    "a number on some list",
    /\b(issue|ticket|pull request|PR)\s*#?\d+|(^|[\s(])#\d{1,5}\b(?!["'\w])/i,
  ],
  ["how it came about", /\b(language model|chatbot|prompted by|the brief)\b/i],
];

const kebab = /^[a-z0-9]+(-[a-z0-9]+)*(\.[a-z]+)*$/;
const component = /^[A-Z][A-Za-z0-9]*(\.test)?\.tsx$/;
const hook = /^use[A-Z][A-Za-z0-9]*(\.test)?\.tsx?$/;
const usual = new Set(["README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE"]);
const emptyNames = /^(utils?|helpers?|misc|common-?stuff|[\w-]*-?manager)\b/;

function checkName({ path }: SourceFile): Found[] {
  const name = path.split("/").at(-1)!;
  const isWeb = path.startsWith("apps/web/");
  const fits =
    kebab.test(name) ||
    (isWeb && (component.test(name) || hook.test(name))) ||
    usual.has(name) ||
    name.startsWith(".");
  const found: Found[] = [];
  if (!fits) found.push({ rule: "file-name", line: 1, what: name });
  if (emptyNames.test(name)) found.push({ rule: "empty-name", line: 1, what: name });
  return found;
}

function checkCode(parsed: Parsed): Found[] {
  const found: Found[] = [];
  for (const [node, around] of walk(parsed.tree)) {
    const line = parsed.lineOf(node);
    if (node.type === "TsKeywordType" && node["kind"] === "any") {
      found.push({ rule: "any", line, what: "the type any" });
    }
    const name = declaredName(node, around);
    if (name !== undefined && bannedNames.test(name)) {
      found.push({ rule: "empty-name", line, what: name });
    }
    found.push(...checkFunction(parsed, node, around), ...checkTestCall(parsed, node));
  }
  return found;
}

const functionTypes = new Set([
  "FunctionDeclaration",
  "FunctionExpression",
  "ArrowFunctionExpression",
  "ClassMethod",
  "PrivateMethod",
  "Constructor",
  "MethodProperty",
]);
const isFunction = (node: Node | null | undefined): boolean =>
  node != null && functionTypes.has(node.type);

// Asked for every character run of every label: an object for each call would be garbage at once.
const innermost = new Set(["firstOutside"]);

function checkFunction(parsed: Parsed, node: Node, around: readonly Node[]): Found[] {
  if (!isFunction(node)) return [];
  const line = parsed.lineOf(node);
  const found: Found[] = [];
  const lines = parsed.linesOf(node);
  if (lines > limits.function && !(isTest(parsed) && isSuite(around.at(-1)))) {
    found.push({ rule: "function-length", line, what: `${lines} lines` });
  }
  const inner = node["function"] as { params: unknown[] } | undefined;
  const parameters = (inner?.params ?? node["params"]) as unknown[];
  // What is injected is named by its type and ordered by nobody; what a library calls is its own.
  const chosen =
    node.type !== "Constructor" &&
    !isArgument(node, around) &&
    !innermost.has(declaredName(node, around) ?? "");
  if (chosen && parameters.length > limits.parameters) {
    found.push({ rule: "parameters", line, what: `${parameters.length} parameters` });
  }
  return found;
}

/** The body of a `describe` holds the tests themselves. */
function isSuite(parent: Node | undefined): boolean {
  if (parent?.type !== "CallExpression") return false;
  let callee = parent["callee"] as Node;
  while (callee.type !== "Identifier") {
    const next = (callee["callee"] ?? callee["object"] ?? callee["tag"]) as Node | undefined;
    if (!next) return false;
    callee = next;
  }
  return callee["value"] === "describe";
}

const isArgument = (node: Node, around: readonly Node[]): boolean => {
  const parent = around.at(-1);
  const given = parent?.["arguments"] as { expression: Node }[] | undefined;
  return given?.some(({ expression }) => expression === node) ?? false;
};

const bannedNames = /^(handle|process)([A-Z]|$)|(Manager|Helper|Utils?)$|^(utils?|helpers?)$/;

/** The name of what is made here: a function, a class, a type, or a value that holds a function. */
function declaredName(node: Node, around: readonly Node[]): string | undefined {
  const identifier = node["identifier"] as { value: string } | undefined;
  if (/^(Function|Class)Declaration$/.test(node.type)) return identifier?.value;
  const id = node["id"] as { value?: string } | undefined;
  if (/^Ts(Interface|TypeAlias)Declaration$/.test(node.type)) return id?.value;
  if (node.type === "VariableDeclarator" && isFunction(node["init"] as Node | null))
    return id?.value;
  const key = node["key"] as { value?: unknown } | undefined;
  const isMethod = /^(ClassMethod|MethodProperty|ClassProperty)$/.test(node.type);
  const holds = node.type === "KeyValueProperty" && isFunction(node["value"] as Node);
  // An object handed to a library has the library's names.
  if (holds && around.some(({ type }) => type === "CallExpression")) return undefined;
  return (isMethod || holds) && typeof key?.value === "string" ? key.value : undefined;
}

/** No test is left out, and nothing is made believe. */
function checkTestCall(parsed: Parsed, node: Node): Found[] {
  if (!/^tests\/|\.test\.tsx?$/.test(parsed.path) || node.type !== "CallExpression") return [];
  const callee = node["callee"] as Node;
  const line = parsed.lineOf(node);
  const object = (callee["object"] as Node | undefined)?.["value"];
  const property = (callee["property"] as Node | undefined)?.["value"];
  const name = callee["value"];
  if (["fit", "xit", "xtest", "fdescribe", "xdescribe"].includes(String(name))) {
    return [{ rule: "test-left-out", line, what: String(name) }];
  }
  const suspended = ["skip", "only", "todo", "failing"].includes(String(property));
  if (["test", "it", "describe"].includes(String(object)) && suspended) {
    return [{ rule: "test-left-out", line, what: `${String(object)}.${String(property)}` }];
  }
  const invented = /^(mock|unstable_mockModule|doMock|fn|spyOn)$/.test(String(property));
  if (object === "jest" && invented) {
    return [{ rule: "make-believe", line, what: `jest.${String(property)}` }];
  }
  return [];
}
