/** Who may import whom. */
import path from "node:path";
import {
  importsOf,
  isTest,
  parse,
  type Import,
  type SourceFile,
  type Violation,
} from "./source-files.ts";

/** Where a file stands, and what it may import besides its neighbours in `home`. */
interface Layer {
  home: string;
  /** Libraries of ours, by their name. */
  ours: readonly RegExp[];
  /** Of what is gone before it runs, also these. */
  oursAsTypes?: readonly RegExp[];
  packages: RegExp;
}

const nothing = /^$/;
const anyLibrary = [
  /^#labels$/,
  /^#decode$/,
  /^#domain$/,
  /^#contracts\/[\w-]+$/,
  /^#texts(\/[\w-]+)?$/,
];
const webPackages =
  /^(react|react-dom(\/client)?|wouter(\/[\w-]+)?|@tanstack\/react-query|idb|temporal-polyfill|zxing-wasm\/reader\/zxing_reader\.wasm\?url)$/;

const layers: readonly Layer[] = [
  { home: "libs/labels", ours: [], packages: nothing },
  {
    home: "libs/decode",
    ours: [/^#labels$/],
    packages: /^(zxing-wasm\/reader|@zxing\/library)$/,
  },
  { home: "libs/domain", ours: [/^#labels$/], packages: /^temporal-polyfill$/ },
  { home: "libs/contracts", ours: [/^#domain$/, /^#labels$/], packages: /^zod$/ },
  {
    home: "libs/texts",
    // The plain constants; all else by its type.
    ours: [/^#contracts\/(problem-codes|finding-codes)$/, /^#texts\/first-messages$/],
    oursAsTypes: [/^#contracts\/[\w-]+$/, /^#domain$/, /^#labels$/],
    packages: nothing,
  },
  {
    home: "apps/web",
    // A schema would bring its validator with it: the page loads types and constants alone.
    ours: [
      /^#labels$/,
      /^#decode$/,
      /^#domain$/,
      /^#texts(\/[\w-]+)?$/,
      /^#contracts\/(problem-codes|finding-codes|routes)$/,
    ],
    oursAsTypes: anyLibrary,
    packages: webPackages,
  },
  { home: "apps/api", ours: anyLibrary, packages: /./ },
  { home: "apps/cli", ours: anyLibrary, packages: /./ },
];

const layerOf = (file: string): Layer | undefined =>
  layers.find(({ home }) => file.startsWith(`${home}/`));

export function checkImports(file: SourceFile): Violation[] {
  const layer = layerOf(file.path);
  if (!layer) return [];
  return importsOf(parse(file)).flatMap((one) => {
    const what = faultOf(file, layer, one);
    return what ? [{ rule: "import", path: file.path, line: one.line, what }] : [];
  });
}

const builtIn = /^node:/;

function faultOf(file: SourceFile, layer: Layer, one: Import): string | undefined {
  const { from } = one;
  const told = `${from} may not be imported in ${layer.home}`;
  if (from.startsWith(".")) return faultOfNeighbour(file, layer, one);
  // A test may ask any oracle.
  if (isTest(file) && !from.startsWith("#")) return undefined;
  if (from.startsWith("#")) {
    const allowed = [...layer.ours, ...(one.typeOnly ? (layer.oursAsTypes ?? []) : [])];
    if (!isTest(file) && !allowed.some((each) => each.test(from))) return told;
    return faultOfRole(file, one);
  }
  const isServer = layer.home === "apps/api" || layer.home === "apps/cli";
  const isBuild = /(^|\/)vite\.config\.ts$/.test(file.path);
  if (builtIn.test(from)) return isServer || isBuild ? undefined : told;
  if (isBuild && /^(vite|@vitejs\/[\w-]+)$/.test(from)) return undefined;
  return layer.packages.test(from) ? faultOfRole(file, one) : told;
}

function faultOfNeighbour(file: SourceFile, layer: Layer, one: Import): string | undefined {
  const target = path.posix.join(path.posix.dirname(file.path), one.from);
  if (!/\.(ts|tsx|mjs|json|css)$/.test(one.from)) return `${one.from} lacks its file's ending`;
  if (/^shared\/.*\.json$|^package\.json$/.test(target)) {
    return file.path.startsWith("apps/") || isTest(file)
      ? undefined
      : `${target} is data of the applications and of tests`;
  }
  if (isTest(file) && /^tests\/|\.fixture\.ts$/.test(target)) return undefined;
  const isInside = target.startsWith(`${layer.home}/`);
  const isOnServer = layer.home === "apps/cli" && target.startsWith("apps/api/");
  if (!isInside && !isOnServer) return `${target} lies outside ${layer.home}`;
  if (file.path.startsWith("libs/domain/checks/") && !isTest(file))
    return faultOfCheck(file, target);
  return faultOfRole(file, { ...one, from: target });
}

/** The files beside the checks that know more than one of them. */
export const besideChecks = /^libs\/domain\/checks\/(check|all-checks|check-tray)\.ts$/;

function faultOfCheck(file: SourceFile, target: string): string | undefined {
  const isCheck = (name: string) =>
    name.startsWith("libs/domain/checks/") &&
    !besideChecks.test(name) &&
    !/\.(test|fixture)\.ts$/.test(name);
  if (!isCheck(file.path) || !isCheck(target)) return undefined;
  return `the check ${path.posix.basename(file.path)} imports another check`;
}

const roleOf = (file: string): string =>
  /^apps\/api\/src\/[\w-]+\/[\w-]+\.(controller|service|store)\.ts$/.exec(file)?.[1] ??
  (file.startsWith("apps/api/src/db/") ? "db" : "");

/** Within the server: controller, service, store; each calls the next. */
function faultOfRole(file: SourceFile, one: Import): string | undefined {
  if (!file.path.startsWith("apps/api/") || isTest(file)) return undefined;
  const { from } = one;
  const [mine, its] = [roleOf(file.path), roleOf(from)];
  const isRoot = /^apps\/api\/src\/[\w-]+(\.[\w-]+)*\.ts$/.test(file.path);
  const isDemo = file.path.startsWith("apps/api/src/demo/");
  if (mine === "controller") return faultOfController(file, from);
  if (its === "controller" && !isRoot) return `${from} is called by requests alone`;
  if (its === "service" && !isRoot && !isDemo) return `${from} is a service: share a store instead`;
  if (mine === "store") return faultOfStore(one);
  const isFeature = /^apps\/api\/src\/(?!db\/|http\/)[\w-]+\//.test(from);
  if (mine === "db" && isFeature) return `${from} is a feature; the database knows none`;
  return undefined;
}

function faultOfController(file: SourceFile, from: string): string | undefined {
  const own = `${path.posix.dirname(file.path)}/`;
  const allowed =
    (from.startsWith(own) && from.endsWith(".service.ts")) ||
    from.startsWith("apps/api/src/http/") ||
    /^(#contracts\/|@nestjs\/common$|fastify$)/.test(from);
  return allowed ? undefined : `${from} is more than a controller needs: it has its service`;
}

// The practice's day, and what it has not set: both are wanted by what is read, and decide nothing.
const readingAlone = ["civilDateAt", "fillCheckSettings", "fillStep"];

function faultOfStore({ from, names, typeOnly }: Import): string | undefined {
  if (from.startsWith("@nestjs/")) return "a store knows no Nest";
  if (names.includes("DataSource")) return "a store is given its transaction, never the connection";
  if (from.startsWith("apps/api/src/http/")) return "a store knows no request";
  const ruling = names.filter((name) => !readingAlone.includes(name));
  if (/^#(domain|labels|texts)/.test(from) && !typeOnly && ruling.length > 0) {
    return "a store has no rule of the trade";
  }
  return undefined;
}
