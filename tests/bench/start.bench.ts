/**
 * P6: from the command to ready on existing data, already built, beside a bare Nest server with the
 * same PostgreSQL and one connection: the least that anything built of these parts must wait for.
 */
import { spawn } from "node:child_process";
import { chmodSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { build } from "esbuild";
import { median } from "./bench-database.ts";

const runs = 7;

export async function run(): Promise<void> {
  const folder = mkdtempSync(path.join(tmpdir(), "tubule-bench-"));
  chmodSync(folder, 0o755);
  const bare = path.resolve("node_modules/.tubule-bench/bare-start.mjs");
  await buildBare(bare);
  const ours = ["apps/cli/tubule.mjs", "start"];
  try {
    const data = { ours: path.join(folder, "ours"), bare: path.join(folder, "bare") };
    // The first start builds, makes the database and the demonstration: not what is measured.
    await timeStart(ours, data.ours);
    await timeStart([bare], data.bare);
    const times = { ours: [] as number[], bare: [] as number[] };
    for (let n = 0; n < runs; n++) {
      times.ours.push(await timeStart(ours, data.ours));
      times.bare.push(await timeStart([bare], data.bare));
    }
    const [mine, least] = [median(times.ours), median(times.bare)];
    console.log(`start on existing data to ready, medians of ${runs}:`);
    console.log(`  tubule ${mine.toFixed(0)} ms, bare Nest and PostgreSQL ${least.toFixed(0)} ms`);
    console.log(`  ratio ${(mine / least).toFixed(2)} (bar 1.5)`);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Milliseconds from the launch to the line that says ready; then it is stopped. */
async function timeStart(words: string[], dataFolder: string): Promise<number> {
  const from = performance.now();
  const child = spawn(process.execPath, words, {
    env: { ...process.env, DATA_DIR: dataFolder, PORT: "0" },
    stdio: ["ignore", "pipe", "inherit"],
  });
  let took: number | undefined;
  child.stdout.setEncoding("utf8").on("data", (text: string) => {
    if (took !== undefined || !text.includes("is ready at")) return;
    took = performance.now() - from;
    child.kill("SIGINT");
  });
  await new Promise((resolve) => child.on("exit", resolve));
  if (took === undefined) throw new Error(`${words.join(" ")} did not become ready`);
  return took;
}

async function buildBare(file: string): Promise<void> {
  const source = `
    import "reflect-metadata";
    import { Module } from "@nestjs/common";
    import { NestFactory } from "@nestjs/core";
    import { FastifyAdapter } from "@nestjs/platform-fastify";
    import { DataSource } from "typeorm";
    import { startEmbeddedPostgres } from "./apps/api/src/db/embedded.ts";
    class Bare {}
    Module({})(Bare);
    const dataFolder = process.env.DATA_DIR;
    const database = await startEmbeddedPostgres({ dataFolder, usualPort: 0 });
    const source = await new DataSource({ type: "postgres", url: database.url }).initialize();
    await source.query("select 1");
    const app = await NestFactory.create(Bare, new FastifyAdapter(), { logger: false });
    await app.listen(0, "127.0.0.1");
    console.log("Bare is ready at " + (await app.getUrl()));
    process.once("SIGINT", async () => {
      await app.close();
      await source.destroy();
      await database.stop();
      process.exit(0);
    });`;
  await build({
    stdin: { contents: source, resolveDir: process.cwd(), loader: "ts" },
    outfile: file,
    bundle: true,
    platform: "node",
    format: "esm",
    packages: "external",
    logLevel: "error",
  });
}
