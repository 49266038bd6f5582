/** The real program in processes of its own, as a person starts it, and a sure end of them all. */
import { spawn, type ChildProcess } from "node:child_process";
import { once } from "node:events";
import path from "node:path";
import { createInterface } from "node:readline";
import { readLock } from "../../apps/api/src/db/embedded-lock.ts";
import { cleanUp, makeFolder, signalGroup } from "../helpers/embedded.ts";

const program = path.resolve("apps/cli/tubule.mjs");
const running = new Set<Program>();

/** Only what a shell would hand on: nothing of the test run's own settings. */
const environment = (more: Record<string, string>): Record<string, string> => {
  const { PATH = "", HOME = "/", SystemRoot = "" } = process.env;
  return { PATH, HOME, ...(SystemRoot === "" ? {} : { SystemRoot }), ...more };
};

/** One run of `tubule`, leading a process group of its own, as a terminal starts it. */
export class Program {
  /** What it said so far, line by line. */
  readonly lines: string[] = [];
  readonly errors: string[] = [];
  readonly ended: Promise<number | NodeJS.Signals>;
  private readonly child: ChildProcess;
  private readonly news = new Set<() => void>();

  constructor(words: readonly string[], settings: Record<string, string>) {
    this.child = spawn(process.execPath, [program, ...words], {
      detached: true,
      env: environment(settings),
      stdio: ["ignore", "pipe", "pipe"],
    });
    running.add(this);
    this.keep(this.child.stdout!, this.lines);
    this.keep(this.child.stderr!, this.errors);
    this.ended = once(this.child, "close").then(([code, signal]) => {
      running.delete(this);
      for (const tell of this.news) tell();
      return (code ?? signal) as number | NodeJS.Signals;
    });
  }

  private keep(stream: NodeJS.ReadableStream, lines: string[]): void {
    createInterface(stream).on("line", (line) => {
      lines.push(line);
      for (const tell of this.news) tell();
    });
  }

  get pid(): number {
    return this.child.pid!;
  }

  get hasEnded(): boolean {
    return this.child.exitCode !== null || this.child.signalCode !== null;
  }

  /** Waits for a line that matches; gives its first group. */
  async says(pattern: RegExp, limitMs = 40_000): Promise<string> {
    const deadline = Date.now() + limitMs;
    for (;;) {
      const found = this.lines.map((line) => pattern.exec(line)).find((match) => match !== null);
      if (found) return found[1] ?? found[0];
      const left = deadline - Date.now();
      if (this.hasEnded || left <= 0) throw new Error(this.report(`never said ${pattern}`));
      await this.somethingNew(left);
    }
  }

  private somethingNew(limitMs: number): Promise<void> {
    return new Promise((resolve) => {
      const tell = () => {
        clearTimeout(timer);
        this.news.delete(tell);
        resolve();
      };
      const timer = setTimeout(tell, limitMs);
      this.news.add(tell);
    });
  }

  report(what: string): string {
    return `${what}; it said:\n${[...this.lines, ...this.errors].join("\n")}`;
  }

  /** To it alone. */
  kill(signal: NodeJS.Signals): void {
    process.kill(this.pid, signal);
  }

  /** To its whole group, as a terminal's Ctrl-C does; waits for the end. */
  async endGroup(signal: NodeJS.Signals): Promise<number | NodeJS.Signals> {
    if (!this.hasEnded) await signalGroup(this.child, signal);
    return this.ended;
  }
}

/** A server that is ready, and where. */
export async function startServer(
  dataFolder: string,
  told: { words?: readonly string[]; settings?: Record<string, string> } = {},
): Promise<{ server: Program; address: string }> {
  const settings = { PORT: "0", ...told.settings, DATA_DIR: dataFolder };
  const server = new Program(["start", ...(told.words ?? [])], settings);
  const address = await server.says(/^Tubule is ready at (http:\S+)$/);
  return { server, address };
}

/** Runs a command to its end. */
export async function runProgram(
  words: readonly string[],
  settings: Record<string, string>,
): Promise<{ code: number | NodeJS.Signals; out: string; err: string }> {
  const run = new Program(words, settings);
  const code = await run.ended;
  // What it says of building comes only when the sources have changed.
  const errors = run.errors.filter((line) => !line.startsWith("Building "));
  return { code, out: run.lines.join("\n"), err: errors.join("\n") };
}

/** A folder that does not exist yet, in one that is removed at the end. */
export const newDataFolder = async (): Promise<string> => path.join(await makeFolder(), "data");

export const clusterOf = (dataFolder: string): string => path.join(dataFolder, "postgres");

export async function postmasterOf(dataFolder: string): Promise<number> {
  const lock = await readLock(clusterOf(dataFolder));
  if (lock === null) throw new Error(`no database runs in ${dataFolder}`);
  return lock.pid;
}

/** Ends whatever still runs, however the test went, and removes its data. */
export async function endEverything(): Promise<void> {
  await Promise.all([...running].map((each) => each.endGroup("SIGKILL").catch(() => undefined)));
  await cleanUp();
}
