import type { X509Certificate } from "node:crypto";
import { readFile } from "node:fs/promises";
import { isIP } from "node:net";
import path from "node:path";
import { keepIssued, type Authority } from "./authority.ts";
import { issueCertificate, readTogether, type KeyAndCertificate } from "./issue.ts";
import type { MachineNames } from "./machine-names.ts";
import { permittedOf } from "./permitted.ts";

const dayMs = 86_400_000;
const renewalMs = 30 * dayMs;

export const isNamed = (certificate: X509Certificate, place: string): boolean =>
  isIP(place) === 0
    ? certificate.checkHost(place, { subject: "never" }) !== undefined
    : certificate.checkIP(place) !== undefined;

/** The server's certificate: kept while it fits, issued anew when it does not. */
export class CertificateKeeper {
  private current: KeyAndCertificate | undefined;

  constructor(
    private readonly authority: Authority,
    private readonly say: (line: string) => void,
  ) {}

  get served(): KeyAndCertificate {
    if (this.current === undefined) throw new Error("no certificate was asked for yet");
    return this.current;
  }

  /** Makes it fit the names and the day. Whether it is another one now. */
  async refresh(wanted: MachineNames, at: Date): Promise<boolean> {
    const names = permittedOf(wanted, this.authority.permitted);
    const { current } = this;
    if (current !== undefined && this.fits(current, names, at)) return false;
    this.current = (await this.readKept(names, at)) ?? (await this.issue(names, at));
    return true;
  }

  /** The one in the folder, unless it is damaged or fits no longer: then the next replaces it. */
  private async readKept(names: MachineNames, at: Date): Promise<KeyAndCertificate | undefined> {
    try {
      const file = path.join(this.authority.folder, "server.pem");
      const kept = readTogether(await readFile(file, "utf8"));
      return this.fits(kept, names, at) ? kept : undefined;
    } catch {
      return undefined;
    }
  }

  private async issue(names: MachineNames, at: Date): Promise<KeyAndCertificate> {
    const { authority } = this;
    const issued = await issueCertificate({ authority, names, at });
    await keepIssued(authority, issued.pem).catch((error: unknown) => {
      this.say(`The certificate of this server could not be kept: ${(error as Error).message}`);
    });
    return issued;
  }

  /**
   * A name that has gone stays in it until it is renewed: an address that comes and goes with the
   * network would have it issued anew each time.
   */
  private fits({ certificate }: KeyAndCertificate, names: MachineNames, at: Date): boolean {
    const { certificate: issuer } = this.authority;
    return (
      certificate.checkIssued(issuer) &&
      certificate.verify(issuer.publicKey) &&
      Date.parse(certificate.validFrom) <= at.getTime() &&
      Date.parse(certificate.validTo) - renewalMs > at.getTime() &&
      [...names.domains, ...names.addresses].every((each) => isNamed(certificate, each))
    );
  }
}

/** What is to be said of the authority's time, if anything. */
export function readAuthorityNote({ certificate, folder }: Authority, at: Date): string | null {
  const [from, to] = [new Date(certificate.validFrom), new Date(certificate.validTo)];
  const day = (instant: Date) => instant.toISOString().slice(0, 10);
  if (from > at) {
    return `The certificates of this PC begin on ${day(from)}. Is its clock right?`;
  }
  if (to.getTime() - 2 * renewalMs > at.getTime()) return null;
  return (
    `The certificate authority of this PC ends on ${day(to)}. Move the folder ${folder} aside and ` +
    "start again; then let every tablet trust the new one on the page /trust."
  );
}
