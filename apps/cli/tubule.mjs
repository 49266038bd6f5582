#!/usr/bin/env node
// The command line: builds what is not built yet, then runs it.
import module, { createRequire } from "node:module";
import path from "node:path";
import { build, root } from "./build.mjs";

// The label reader needs no server and no database: it is a bundle of its own, up at once.
const name = process.argv[2];
const parts = name === "label" ? ["label"] : name === "start" ? ["server", "web"] : ["server"];
await build(parts, (line) => process.stderr.write(`${line}\n`));
const bundle = name === "label" ? "label.cjs" : "tubule.cjs";
// Keeps the compiled code between starts, where Node can (22.1 and later).
module.enableCompileCache?.(path.join(root, "dist", "cache"));
process.env.TUBULE_ROOT = root;
createRequire(import.meta.url)(path.join(root, "dist", bundle));
