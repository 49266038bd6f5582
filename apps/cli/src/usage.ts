import { CommanderError, type Command } from "commander";

/** Exit codes of every command: fine, a finding, wrong use. */
export const exitCodes = { fine: 0, finding: 1, wrongUse: 2 } as const;

/** Something the person at the keyboard can mend; shown without a trace. */
export class Refused extends Error {}

/** Runs a command line; wrong use ends with 2 and a sentence, a bug with its trace. */
export async function runCommand(command: Command, words: readonly string[]): Promise<void> {
  try {
    await command.parseAsync(words, { from: "user" });
  } catch (error) {
    if (error instanceof CommanderError) {
      process.exitCode = error.exitCode === 0 ? exitCodes.fine : exitCodes.wrongUse;
      return;
    }
    const told = error as Error & { remedy?: string };
    const expected = error instanceof Refused || told.remedy !== undefined || isRefusal(error);
    process.stderr.write(
      expected ? `${[told.message, told.remedy].filter(Boolean).join(" ")}\n` : `${told.stack}\n`,
    );
    process.exitCode = exitCodes.wrongUse;
  }
}

/** Refusals of the server's own start carry this name; the label reader is built without it. */
const isRefusal = (error: unknown): boolean => (error as Error).name === "StartRefused";
