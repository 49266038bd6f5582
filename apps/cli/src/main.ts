import "reflect-metadata";
import { Command } from "commander";
import { seed } from "./seed.ts";
import { start } from "./start.ts";
import { trace } from "./trace.ts";
import { runCommand } from "./usage.ts";
import { verify } from "./verify.ts";

const command = new Command("tubule")
  .description(
    "Keeps the bonding materials of a dental practice traceable. A record-keeping and checking aid: " +
      "it does not replace the instructions for use, local regulation or the clinician's judgement.",
  )
  .exitOverride();

command
  .command("start")
  .description("start the server with its own database, until Ctrl-C")
  .option("--empty", "no demonstration: wait for the owner, with a code on the console")
  .action(start);

command
  .command("label")
  .description("read labels from standard input, one a line (see: tubule label --help)")
  .action(() => undefined);

command
  .command("trace")
  .description("where is a lot, and who has it? By lot, device identifier or container code")
  .option("--lot <text>", "the lot as it is printed")
  .option("--identifier <text>", "a device identifier, or a whole label")
  .option("--container <code>", "the short code on the practice's own label")
  .option("--practice <id>", "one practice, where the database holds several")
  .option("--json", "JSON instead of text")
  .action(trace);

command
  .command("verify")
  .description("check the audit chain, the ledger and every signed record")
  .option("--json", "JSON instead of text")
  .action(verify);

command
  .command("seed")
  .description("make the demonstration in a database that holds no practice yet")
  .option("--json", "JSON instead of text")
  .action(seed);

void runCommand(command, process.argv.slice(2));
