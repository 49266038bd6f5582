// Runs Jest as ES modules (the flag must be on the node that runs it, and a package script cannot
// set an environment variable the same way on every system), with a PostgreSQL beside it.
import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import path from "node:path";
import { build as bundle } from "esbuild";
import { build } from "../../apps/cli/build.mjs";

const require = createRequire(import.meta.url);
const words = process.argv.slice(2);
// Tests of the pure libraries alone need no database.
const needsServer = !(words.length > 0 && words.every((word) => /^(libs\/|--)/.test(word)));

async function startServer() {
  const folder = mkdtempSync(path.resolve("node_modules", ".tubule-test-"));
  const file = path.join(folder, "test-server.cjs");
  await bundle({
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

// Before the tests that run the product side by side, so that no two of them build it at once.
if (needsServer) await build();
const server = needsServer ? await startServer() : undefined;
const results = path.join(mkdtempSync(path.join(tmpdir(), "tubule-results-")), "jest.json");
const jest = [require.resolve("jest/bin/jest"), "--json", `--outputFile=${results}`, ...words];
const child = spawn(process.execPath, ["--experimental-vm-modules", "--no-warnings", ...jest], {
  // With --json Jest writes its results to standard output, too; the file is enough.
  stdio: ["ignore", "ignore", "inherit"],
  env: { ...process.env, TUBULE_TEST_POSTGRES: server?.url ?? "" },
});
for (const signal of ["SIGINT", "SIGTERM"]) process.on(signal, () => child.kill(signal));
const code = await new Promise((resolve) => {
  child.on("exit", (status, signal) => resolve(signal ? 1 : (status ?? 1)));
});
await server?.stop();
console.log(countTests());
process.exit(code);

/** The closing line, from the real counts; a file that does not even load is a failure. */
function countTests() {
  try {
    const read = JSON.parse(readFileSync(results, "utf8"));
    const failed = read.numFailedTests + read.numRuntimeErrorTestSuites;
    const skipped = read.numPendingTests + read.numTodoTests;
    return `Tests: ${read.numPassedTests} passed, ${failed} failed, ${skipped} skipped`;
  } catch {
    return "Tests: 0 passed, 1 failed, 0 skipped";
  } finally {
    rmSync(path.dirname(results), { recursive: true, force: true });
  }
}
