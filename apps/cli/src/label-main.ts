import { Command, InvalidArgumentError, Option } from "commander";
import { readLabelLines, splitLines, type LabelLineOptions } from "./label-lines.ts";
import { exitCodes, runCommand } from "./usage.ts";

const today = new Date().toISOString().slice(0, 10);

function readDay(text: string): string {
  const day = new Date(`${text}T00:00:00Z`);
  if (/^\d{4}-\d\d-\d\d$/.test(text) && day.toISOString().startsWith(text)) return text;
  throw new InvalidArgumentError("Write a day as YYYY-MM-DD.");
}

type CommandOptions = Omit<LabelLineOptions, "gsTokens"> & {
  gsToken: readonly string[];
  image?: string[];
};

const command = new Command("tubule label")
  .description(
    "Reads one label a line from standard input and writes what it says as one JSON line. A line " +
      'is a JSON string, an array of strings (the symbols of one label), an object {"input", ' +
      '"options"}, an object {"pack": [label, ...], "options"} for the labels of one pack (box, ' +
      'bottle, kit), an object {"scanner": {"gs1", "hibc"}} with what a scanner made of the two ' +
      "set-up symbols, or the label as it is. A refused label is an answer: the exit code stays 0. " +
      "With --image it reads photographs instead.",
  )
  .option("--today <day>", "YYYY-MM-DD; decides the century of two-digit years", readDay, today)
  .addOption(
    new Option("--associations <mode>", "elements that lack a companion: refuse, or only warn")
      .choices(["enforce", "defer"])
      .default("defer"),
  )
  .option(
    "--gs-token <text>",
    "what this scanner sends in place of the group separator; may be repeated",
    (text: string, before: readonly string[]) => [...before, text],
    [],
  )
  .option("--image <files...>", "PNG or JPEG: one line for each symbol; 1 where there is none")
  .option("--json", "JSON lines, which is what it always writes")
  .exitOverride()
  .action(async ({ gsToken: gsTokens, image, today: day, associations }: CommandOptions) => {
    const options = { today: day, associations, gsTokens };
    if (image !== undefined) return readImages(image, options);
    process.stdin.setEncoding("utf8");
    await readLabelLines(splitLines(process.stdin), options, write);
  });

const write = (line: string): void => void process.stdout.write(`${line}\n`);

/** The decoders are a bundle of their own: whoever reads text does not wait for them. */
async function readImages(files: readonly string[], options: LabelLineOptions): Promise<void> {
  const { readLabelImages } = await import("./label-images.ts");
  const { empty } = await readLabelImages(files, options, write);
  if (empty > 0) process.exitCode = exitCodes.finding;
}

void runCommand(command, process.argv.slice(3));
