import { spawn, type ChildProcess, type SpawnOptions } from "node:child_process";

/** An unprivileged account that PostgreSQL runs under when Tubule itself runs as root. */
export interface Account {
  name: string;
  uid: number;
  gid: number;
}

export interface Finished {
  /** Null when a signal ended the program or it could not be started. */
  exitCode: number | null;
  /** Standard output and standard error, in the order they came. */
  text: string;
  /** Set when the program could not be started at all. */
  error?: Error;
}

export interface RunOptions {
  account: Account | null;
  /** Its own session: a Ctrl-C in the terminal does not reach it. */
  detached?: boolean;
  /** Instead of the usual few variables. */
  environment?: Record<string, string>;
}

// A variable of the caller's (PGDATA, PGPORT, PGOPTIONS, a secret) must not reach the server, and
// its messages must come in English, because a failed start is understood from them.
const passedOn = ["PATH", "Path", "SystemRoot", "SYSTEMROOT", "windir", "TEMP", "TMP", "TMPDIR"];

export function childEnvironment(): Record<string, string> {
  const environment: Record<string, string> = { LC_ALL: "C", LANG: "C" };
  for (const name of passedOn) {
    const value = process.env[name];
    if (value !== undefined) environment[name] = value;
  }
  return environment;
}

/** What every child process gets. The folder must be one that any account may enter. */
export function childOptions(account: Account | null): SpawnOptions {
  return {
    env: childEnvironment(),
    windowsHide: true,
    ...(process.platform === "win32" ? {} : { cwd: "/" }),
    ...(account === null ? {} : { uid: account.uid | 0, gid: account.gid | 0 }),
  };
}

type Started = { child: ChildProcess; error?: undefined } | { child: null; error: Error };

/** Some failures come as an event later; those that are thrown at once are returned here. */
export function startProgram(file: string, args: string[], options: SpawnOptions): Started {
  try {
    return { child: spawn(file, args, options) };
  } catch (error) {
    return { child: null, error: error as Error };
  }
}

export function runProgram(file: string, args: string[], options: RunOptions): Promise<Finished> {
  return new Promise((resolve) => {
    const { child, error } = startProgram(file, args, {
      ...childOptions(options.account),
      ...(options.environment === undefined ? {} : { env: options.environment }),
      detached: options.detached ?? false,
      stdio: ["ignore", "pipe", "pipe"],
    });
    if (child === null) return resolve({ exitCode: null, text: "", error });
    const chunks: Buffer[] = [];
    const text = () => Buffer.concat(chunks).toString("utf8");
    child.stdout?.on("data", (chunk: Buffer) => chunks.push(chunk));
    child.stderr?.on("data", (chunk: Buffer) => chunks.push(chunk));
    child.once("error", (cause) => resolve({ exitCode: null, text: text(), error: cause }));
    child.once("close", (exitCode) => resolve({ exitCode, text: text() }));
    child.once("exit", (exitCode) => {
      // On Windows a server started by the program inherits these pipes and keeps them open.
      setTimeout(() => {
        child.stdout?.destroy();
        child.stderr?.destroy();
        resolve({ exitCode, text: text() });
      }, 500).unref();
    });
  });
}

export function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => {
    setTimeout(resolve, milliseconds);
  });
}
