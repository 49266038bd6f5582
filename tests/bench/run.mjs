// `npm run bench -- <name>`: bundles tests/bench/<name>.bench.ts and runs it; no name lists them.
import { spawn } from "node:child_process";
import { mkdirSync, readdirSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = path.dirname(fileURLToPath(import.meta.url));
const suffix = ".bench.ts";
const names = readdirSync(here)
  .filter((file) => file.endsWith(suffix))
  .map((file) => file.slice(0, -suffix.length));
const [name, ...words] = process.argv.slice(2);
if (name === undefined || !names.includes(name)) {
  console.log(`npm run bench -- <name>, one of: ${names.join(", ")}`);
  process.exit(name === undefined ? 0 : 2);
}

const folder = path.resolve(here, "../../node_modules/.tubule-bench");
mkdirSync(folder, { recursive: true });
const outfile = path.join(folder, `${name}.mjs`);
await build({
  stdin: {
    contents: `import { run } from "./${name}${suffix}"; await run(process.argv.slice(2));`,
    resolveDir: here,
    loader: "ts",
  },
  outfile,
  bundle: true,
  platform: "node",
  format: "esm",
  packages: "external",
  logLevel: "error",
});
const child = spawn(process.execPath, ["--expose-gc", outfile, ...words], { stdio: "inherit" });
child.on("exit", (code) => process.exit(code ?? 1));
