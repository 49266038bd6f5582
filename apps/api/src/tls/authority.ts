// What lies where in the data folder:
//   tls/ca.pem      the certificate authority of this machine, key and certificate, 0600
//   tls/server.pem  the certificate it has issued to the server, with its key, 0600
import { randomBytes } from "node:crypto";
import { chmod, mkdir, open, readFile, rename, rm, stat } from "node:fs/promises";
import path from "node:path";
import { errnoOf } from "../db/embedded-error.ts";
import { makeWorkFolder, removeLeftovers, renameIntoPlace } from "../db/embedded-files.ts";
import type { Account } from "../db/embedded-run.ts";
import { makeAuthority, readTogether, type KeyAndCertificate } from "./issue.ts";
import { readHostName, type Machine } from "./machine-names.ts";
import { permittedHere, readPermitted, type Permitted } from "./permitted.ts";

/** Why there is no https, in sentences that say what to do. */
export class NoCertificate extends Error {
  override name = "NoCertificate";
}

export interface Authority extends KeyAndCertificate {
  /** Where it is kept, with what it issues. */
  folder: string;
  permitted: Permitted;
}

interface OpenOptions {
  dataFolder: string;
  machine: Machine;
  at: Date;
}

/** The authority that is kept; only where there never was one, a new one. */
export async function openAuthority(told: OpenOptions): Promise<Authority> {
  const folder = path.join(path.resolve(told.dataFolder), "tls");
  try {
    if (!(await exists(folder))) await makeKept(folder, told);
    return await readKept(folder);
  } catch (error) {
    if (error instanceof NoCertificate) throw error;
    throw new NoCertificate(
      `the certificates of this PC cannot be kept in ${folder} (${(error as Error).message}). ` +
        "Give the account that runs Tubule the right to read and write there, then start again.",
    );
  }
}

async function readKept(folder: string): Promise<Authority> {
  const file = path.join(folder, "ca.pem");
  try {
    await keepPrivate(file);
    const read = readTogether(await readFile(file, "utf8"));
    const permitted = readPermitted(read.certificate.raw);
    if (!read.certificate.ca || permitted === undefined) throw new Error("it is another one's");
    return { ...read, folder, permitted };
  } catch (error) {
    // A new one in its place would be trusted by no tablet, and nobody would know why.
    throw new NoCertificate(
      `the certificate authority in ${file} cannot be read (${(error as Error).message}). Put the ` +
        `file back from a backup. If there is none, move the folder ${folder} aside and start ` +
        "again: a new one is made, which every tablet has to be taught to trust on the page /trust.",
    );
  }
}

/** A copy may have come back with more rights than it had. */
async function keepPrivate(file: string): Promise<void> {
  const { mode } = await stat(file);
  if (process.platform === "win32" || (mode & 0o077) === 0) return;
  await chmod(file, 0o600).catch(() => undefined);
}

const releasedAt = Date.UTC(2026, 0, 1);

/** The folder appears with the authority in it; of several that start at once, one is first. */
async function makeKept(folder: string, { machine, at }: OpenOptions): Promise<void> {
  if (at.getTime() < releasedAt) {
    throw new NoCertificate(
      `the clock of this PC says ${at.toISOString().slice(0, 10)}, and a certificate made now ` +
        "would not be valid. Set the clock right, then start again.",
    );
  }
  await mkdir(path.dirname(folder), { recursive: true, mode: 0o700 });
  await removeLeftovers(folder);
  const owner = await ownerFor(folder);
  const made = await makeAuthority({
    hostName: readHostName(machine),
    permitted: permittedHere(machine),
    at,
  });
  const beside = await makeWorkFolder(folder, owner);
  await writePrivate(path.join(beside, "ca.pem"), made.pem, owner);
  if (!(await renameIntoPlace(beside, folder))) await rm(beside, { recursive: true, force: true });
}

/** Whole or not at all, and for its owner alone. */
export async function keepIssued({ folder }: Authority, pem: string): Promise<void> {
  await writePrivate(path.join(folder, "server.pem"), pem, await ownerFor(folder));
}

async function writePrivate(file: string, text: string, owner: Account | null): Promise<void> {
  const beside = `${file}.new-${randomBytes(4).toString("hex")}`;
  const opened = await open(beside, "wx", 0o600);
  try {
    await opened.writeFile(text);
    if (owner !== null) await opened.chown(owner.uid, owner.gid);
    await opened.sync();
    await opened.close();
    await rename(beside, file);
  } catch (error) {
    await opened.close().catch(() => undefined);
    await rm(beside, { force: true });
    throw error;
  }
}

/** Root gives what it makes to whoever has the folder around it: they may start Tubule next. */
async function ownerFor(place: string): Promise<Account | null> {
  if (process.geteuid?.() !== 0) return null;
  const { uid, gid } = await stat(path.dirname(place));
  return uid === 0 ? null : { name: `user ${uid}`, uid, gid };
}

const exists = (place: string): Promise<boolean> =>
  stat(place).then(
    () => true,
    (error: unknown) => {
      if (errnoOf(error) === "ENOENT") return false;
      throw error;
    },
  );
