import { Command, InvalidArgumentError, Option } from "commander";
import { readLabelLines, splitLines } from "./label-lines.ts";
import { runCommand } from "./usage.ts";

const today = new Date().toISOString().slice(0, 10);

function readDay(text: string): string {
  const day = new Date(`${text}T00:00:00Z`);
  if (/^\d{4}-\d\d-\d\d$/.test(text) && day.toISOString().startsWith(text)) return text;
  throw new InvalidArgumentError("Write a day as YYYY-MM-DD.");
}

const command = new Command("tubule label")
  .description(
    "Reads one label a line from standard input and writes what it says as one JSON line. A line " +
      'is a JSON string, an array of strings (the symbols of one label), an object {"input", ' +
      '"options"}, or the label as it is. A refused label is an answer: the exit code stays 0.',
  )
  .option("--today <day>", "YYYY-MM-DD; decides the century of two-digit years", readDay, today)
  .addOption(
    new Option("--associations <mode>", "elements that lack a companion: refuse, or only warn")
      .choices(["enforce", "defer"])
      .default("defer"),
  )
  .option("--json", "JSON lines, which is what it always writes")
  .exitOverride()
  .action(async (options: { today: string; associations: "enforce" | "defer" }) => {
    process.stdin.setEncoding("utf8");
    await readLabelLines(splitLines(process.stdin), options, (line) => {
      process.stdout.write(`${line}\n`);
    });
  });

void runCommand(command, process.argv.slice(3));
