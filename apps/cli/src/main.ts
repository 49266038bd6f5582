import "reflect-metadata";
import { Command } from "commander";
import { labels, sayBuiltInSheets } from "./labels.ts";
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
  .command("labels")
  .description("make the practice's own labels into a file; --help tells how")
  .option("--container <code...>", "one or more containers by their code")
  .option("--delivery <id>", "every container of a delivery")
  .option("--location <name...>", "one or more places by their name")
  .option("--tray <id...>", "one or more trays by their id")
  .requiredOption("--format <format>", "sheet, roll (both PDF), zpl, svg or png (one label each)")
  .requiredOption("--out <file>", "the file to be written")
  .option("--size <size>", "bottle, syringe or place; a sheet has its own", "bottle")
  .option("--sheet <id>", "for a sheet: a built-in name such as a4-5x13, or an id")
  .option("--start-at <n>", "for a sheet: the first label that is still on it", "1")
  .option("--copies <n>", "of each label", "1")
  .option("--dpi <dots>", "dots to the inch of the printer: 203, 300 or 600", "300")
  .option("--practice <id>", "one practice, where the database holds several")
  .addHelpText("after", `\nBuilt-in sheets:\n${sayBuiltInSheets()}`)
  .action(labels);

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
