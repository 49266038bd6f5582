import path from "node:path";
import { readConfig } from "../../api/src/config.ts";
import { startServer } from "../../api/src/start.ts";
import { migrationsFolder, root } from "./on-database.ts";

export async function start(options: { empty?: boolean }): Promise<void> {
  const stopping = new Promise<void>((resolve) => {
    process.once("SIGINT", resolve);
    process.once("SIGTERM", resolve);
  });
  const say = (line: string) => process.stdout.write(`${line}\n`);
  const running = await startServer({
    config: readConfig(process.env),
    empty: options.empty ?? false,
    webFolder: path.join(root, "dist/web"),
    migrationsFolder,
    say,
  });
  say("Stop with Ctrl-C");
  await stopping;
  // A second Ctrl-C, or one sent to the whole group by npm, must not cut the stop short.
  process.on("SIGINT", () => undefined);
  process.on("SIGTERM", () => undefined);
  say("Stopping");
  await running.stop();
  say("Stopped");
  process.exit(0);
}
