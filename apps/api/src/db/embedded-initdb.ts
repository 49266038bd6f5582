import { randomBytes } from "node:crypto";
import { open, rename, rm } from "node:fs/promises";
import { join } from "node:path";
import type { Binaries } from "./embedded-binaries.ts";
import { explainFileError } from "./embedded-error.ts";
import { explainFailure } from "./embedded-failure.ts";
import {
  inspectCluster,
  makeWorkFolder,
  passwordFile,
  removeLeftovers,
  renameIntoPlace,
  syncFolder,
  type Place,
} from "./embedded-files.ts";
import { runProgram, type Account } from "./embedded-run.ts";

/** The cluster's own superuser: it owns the tables, and the application does not log in as it. */
export const ownerName = "tubule_owner";

/**
 * Makes the cluster where there is none yet. It grows in a folder beside its place and is renamed
 * when it is whole, password included: an interrupted initdb leaves nothing that looks like data,
 * and of two processes that start at once the second finds the first one's cluster.
 */
export async function makeCluster(
  place: Place,
  binaries: Binaries,
  { durable, log }: { durable: boolean; log: (line: string) => void },
): Promise<void> {
  await removeLeftovers(place.cluster);
  if ((await inspectCluster(place.cluster)) !== "absent") return;
  log(`Making a PostgreSQL database in ${place.cluster}`);
  let work: string | undefined;
  try {
    work = await makeWorkFolder(place.cluster, place.account);
    const made = join(work, "cluster");
    const password = join(work, "password");
    await writePassword(password, place.account);
    // The C locale for all that PostgreSQL still takes from the system's library: it is the same
    // everywhere, so that no index depends on it.
    const locale = ["--locale-provider=builtin", "--builtin-locale=C.UTF-8", "--locale=C"];
    const access = ["--auth-host=scram-sha-256", "--auth-local=scram-sha-256"];
    const whose = ["-U", ownerName, `--pwfile=${password}`, "--encoding=UTF8"];
    const safety = durable ? ["--data-checksums"] : ["--data-checksums", "--no-sync"];
    const finished = await runProgram(
      binaries.initdb,
      ["-D", made, ...whose, ...locale, ...access, ...safety],
      { account: place.account },
    );
    if (finished.exitCode !== 0) throw explainFailure("initdb", place.cluster, finished);
    await rename(password, passwordFile(made));
    if (durable) await syncFolder(made);
    await renameIntoPlace(made, place.cluster);
  } catch (error) {
    throw explainFileError(error, place.cluster);
  } finally {
    if (work !== undefined) await rm(work, { recursive: true, force: true });
  }
}

/** Readable by nobody else from its first byte on, in a folder nobody else can enter. */
async function writePassword(path: string, account: Account | null): Promise<void> {
  const file = await open(path, "wx", 0o600);
  try {
    await file.writeFile(`${randomBytes(24).toString("base64url")}\n`);
    if (account !== null) await file.chown(account.uid, account.gid);
    await file.sync();
  } finally {
    await file.close();
  }
}
