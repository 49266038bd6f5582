/** Why the PostgreSQL inside could not be started or stopped: a closed list. */
export type EmbeddedPostgresCode =
  | "no-binaries"
  | "missing-runtime"
  | "no-account"
  | "no-permission"
  | "wrong-owner"
  | "disk-full"
  | "newer-data"
  | "older-data"
  | "incomplete-data"
  | "wrong-password"
  | "in-use"
  | "no-port"
  | "start-timeout"
  | "start-failed"
  | "not-durable"
  | "stop-timeout";

export class EmbeddedPostgresError extends Error {
  readonly code: EmbeddedPostgresCode;
  /** What the person at the machine can do now, in sentences. */
  readonly remedy: string;

  constructor(code: EmbeddedPostgresCode, message: string, remedy: string) {
    super(message);
    this.name = "EmbeddedPostgresError";
    this.code = code;
    this.remedy = remedy;
  }
}

/** Gives a file system error the words of this page; anything else passes unchanged. */
export function explainFileError(error: unknown, folder: string): unknown {
  switch (errnoOf(error)) {
    case "ENOSPC":
    case "EDQUOT":
      return diskFull(folder);
    case "EACCES":
    case "EPERM":
    case "EROFS":
      return noPermission(folder, error instanceof Error ? error.message : String(error));
    default:
      return error;
  }
}

/** A failed system call's name of the error, PostgreSQL's code of five characters, or "". */
export function errnoOf(error: unknown): string {
  // Not `instanceof Error`: where tests run, the system's errors are of another realm.
  if (typeof error !== "object" || error === null || !("code" in error)) return "";
  return typeof error.code === "string" ? error.code : "";
}

export function diskFull(folder: string): EmbeddedPostgresError {
  return new EmbeddedPostgresError(
    "disk-full",
    `The disk that holds ${folder} is full.`,
    "Make room on that disk and start again. Nothing that was saved is lost.",
  );
}

export function noPermission(folder: string, detail: string): EmbeddedPostgresError {
  return new EmbeddedPostgresError(
    "no-permission",
    `The database in ${folder} may not be read or written: ${detail}`,
    "Give the account that runs Tubule the right to write there, or choose another data folder.",
  );
}

export function missingRuntime(detail: string): EmbeddedPostgresError {
  return new EmbeddedPostgresError(
    "missing-runtime",
    `The PostgreSQL inside cannot run on this system: ${detail}`,
    process.platform === "win32"
      ? "Install the Microsoft Visual C++ Redistributable (x64) and start again."
      : "Run npm ci again. If that does not help, install the GNU C library and the C++ " +
          "runtime (on Debian and Ubuntu: libc6, libstdc++6), or set DATABASE_URL to a " +
          "PostgreSQL of your own (18 or newer).",
  );
}
