import { readFile, stat } from "node:fs/promises";
import { basename, join } from "node:path";
import { errnoOf } from "./embedded-error.ts";
import { runProgram } from "./embedded-run.ts";

/** What `postmaster.pid` says. PostgreSQL writes it and PostgreSQL alone removes it. */
export interface Lock {
  pid: number;
  /** 0 until the server has chosen it. */
  port: number;
  status: "starting" | "ready" | "stopping" | "";
  /** Changes whenever the file is written, even if it says the same. */
  stamp: string;
}

// Lines of the file: pid, data folder, start time, port, socket folder, address, shared memory,
// status. Source: PostgreSQL 18, src/include/utils/pidfile.h (from memory, and as seen here).
export async function readLock(cluster: string): Promise<Lock | null> {
  const file = join(cluster, "postmaster.pid");
  let lines: string[];
  let stamp: string;
  try {
    const { ino, mtimeNs } = await stat(file, { bigint: true });
    stamp = `${ino} ${mtimeNs}`;
    lines = (await readFile(file, "utf8")).split("\n");
  } catch (error) {
    // On Windows the file is locked for a moment while the server writes it.
    if (["ENOENT", "EBUSY", "EPERM"].includes(errnoOf(error))) return null;
    throw error;
  }
  const pid = Number.parseInt(lines[0] ?? "", 10);
  if (!Number.isInteger(pid) || pid <= 0) return null;
  const status = lines[7]?.trim() ?? "";
  return {
    pid,
    port: Number.parseInt(lines[3] ?? "", 10) || 0,
    stamp,
    status: status === "starting" || status === "ready" || status === "stopping" ? status : "",
  };
}

/** True also for a process that we may not signal. */
export function runsStill(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return errnoOf(error) === "EPERM";
  }
}

/**
 * Who has the process number that a lock file names: nobody, the server of this cluster, surely
 * somebody else (numbers are used again after a restart), or a PostgreSQL that may be this one.
 */
export type Holder = "gone" | "ours" | "other" | "unclear";

export async function lookAtHolder(pid: number, cluster: string): Promise<Holder> {
  if (!runsStill(pid)) return "gone";
  if (process.platform === "linux") return lookOnLinux(pid, cluster);
  if (process.platform === "win32") return lookOnWindows(pid);
  return lookByPs(pid, cluster);
}

async function lookOnLinux(pid: number, cluster: string): Promise<Holder> {
  let named: boolean;
  try {
    const status = await readFile(`/proc/${pid}/stat`, "utf8");
    const [, name, state] = /\((.*)\) (\S)/s.exec(status) ?? [];
    // A dead process whose parent has not fetched it keeps its number, and nothing else.
    if (state === "Z" || state === "X") return "other";
    named = name === "postgres";
  } catch {
    return runsStill(pid) ? "unclear" : "gone";
  }
  try {
    // The server's working folder is its cluster.
    const [there, here] = await Promise.all([stat(`/proc/${pid}/cwd`), stat(cluster)]);
    if (there.dev !== here.dev || there.ino !== here.ino) return "other";
    // Under an emulator of another processor the server has the emulator's name.
    return named ? "ours" : "unclear";
  } catch {
    // In a container even root may not look at another user's working folder.
    return named ? "unclear" : "other";
  }
}

// macOS, not run by us: `ps` prints the command as it was started, with the cluster after -D.
async function lookByPs(pid: number, cluster: string): Promise<Holder> {
  const found = await runProgram("/bin/ps", ["-p", String(pid), "-o", "stat=,command="], {
    account: null,
  });
  const [, state = "", command = ""] = /^\s*(\S+)\s+(.*)$/s.exec(found.text) ?? [];
  if (found.exitCode !== 0 || command === "") return runsStill(pid) ? "unclear" : "gone";
  if (state.startsWith("Z")) return "other";
  if (command.includes(` -D ${cluster} `)) return "ours";
  return command.includes("postgres") ? "unclear" : "other";
}

// Windows, not run by us: `tasklist` prints "postgres.exe","1234",... or a sentence without quotes.
async function lookOnWindows(pid: number): Promise<Holder> {
  const list = join(process.env["SystemRoot"] ?? "C:\\Windows", "System32", "tasklist.exe");
  const filter = ["/FI", `PID eq ${pid}`, "/FO", "CSV", "/NH"];
  const found = await runProgram(list, filter, { account: null });
  const image = /^"([^"]+)","\d+"/m.exec(found.text)?.[1];
  if (image === undefined) return found.exitCode === 0 ? "gone" : "unclear";
  return basename(image).toLowerCase() === "postgres.exe" ? "unclear" : "other";
}
