import {
  diskFull,
  EmbeddedPostgresError,
  errnoOf,
  missingRuntime,
  noPermission,
} from "./embedded-error.ts";
import { lastLines } from "./embedded-files.ts";
import type { Finished } from "./embedded-run.ts";

/** What a server that ended before it was ready said about the reason. */
export type Refusal = "port" | "lock" | "other";

// Messages of PostgreSQL 18 in the C locale, as seen here; the one about bogus data from memory.
// A port can be refused without being taken: Windows reserves some (error 10013).
export function readRefusal(log: string): Refusal {
  if (/could not create any TCP\/IP sockets|no socket created for listening/.test(log)) {
    return "port";
  }
  const held = /lock file "postmaster.pid" (already exists|is empty)/;
  const memory = /pre-existing shared memory block|bogus data in lock file/;
  return held.test(log) || memory.test(log) ? "lock" : "other";
}

/** Says in words why a program of PostgreSQL ended, from its exit code and what it printed. */
export function explainFailure(
  program: string,
  cluster: string,
  finished: Finished,
): EmbeddedPostgresError {
  const { exitCode, text, error } = finished;
  const lines = lastLines(text);
  if (["EACCES", "EPERM"].includes(errnoOf(error))) return noPermission(cluster, `${error}`);
  // A program that is there and "not found" lacks its loader: another C library (musl).
  if (error !== undefined) return missingRuntime(error.message);
  // 0xC0000135: Windows found no DLL of that name.
  if (exitCode === 0xc0000135) return missingRuntime("a DLL is missing (0xC0000135)");
  if (/error while loading shared libraries|Library not loaded/.test(text)) {
    return missingRuntime(lines);
  }
  if (/No space left on device|Disk quota exceeded/i.test(text)) return diskFull(cluster);
  if (/Permission denied|Read-only file system|has wrong ownership/.test(text)) {
    return noPermission(cluster, lines);
  }
  return new EmbeddedPostgresError(
    "start-failed",
    `PostgreSQL (${program}) ended with exit code ${exitCode ?? "none"}. It said:\n${lines}`,
    "Nothing was deleted. Start again; if the same lines come back, keep the data folder as it " +
      "is and restore the last backup into a new one.",
  );
}
