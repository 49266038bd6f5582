// Runs Jest as ES modules (the flag must be on the node that runs it, and a package script cannot
// set an environment variable the same way on every system), with a PostgreSQL beside it.
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { build } from "esbuild";

const require = createRequire(import.meta.url);
const words = process.argv.slice(2);
// Tests of the pure libraries alone need no database.
const needsServer = !(words.length > 0 && words.every((word) => /^(libs\/|--)/.test(word)));

async function startServer() {
  const folder = mkdtempSync(path.resolve("node_modules", ".tubule-test-"));
  const file = path.join(folder, "test-server.cjs");
  await build({
    entryPoints: [path.resolve("tests/helpers/test-server.ts")],
    outfile: file,
    bundle: true,
    platform: "node",
    format: "cjs",
    packages: "external",
    define: { "import.meta.url": "bundleAddress" },
    banner: { js: "const bundleAddress = require('node:url').pathToFileURL(__filename).href;" },
    logLevel: "error",
  });
  try {
    return await require(file).startTestServer();
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const server = needsServer ? await startServer() : undefined;
const child = spawn(
  process.execPath,
  ["--experimental-vm-modules", "--no-warnings", require.resolve("jest/bin/jest"), ...words],
  { stdio: "inherit", env: { ...process.env, TUBULE_TEST_POSTGRES: server?.url ?? "" } },
);
for (const signal of ["SIGINT", "SIGTERM"]) process.on(signal, () => child.kill(signal));
const code = await new Promise((resolve) => {
  child.on("exit", (status, signal) => resolve(signal ? 1 : (status ?? 1)));
});
await server?.stop();
process.exit(code);
