import "reflect-metadata";
import { createPrivateKey, randomBytes, X509Certificate } from "node:crypto";
import { encodePermitted, nameConstraints, type Permitted } from "./permitted.ts";
import type { MachineNames } from "./machine-names.ts";

// Loading it takes longer than all the rest, and most starts issue nothing.
const loadX509 = () => import("@peculiar/x509");

const dayMs = 86_400_000;
const curve = { name: "ECDSA", namedCurve: "P-256" };
const signing = { name: "ECDSA", hash: "SHA-256" };

/** A key and the certificate of it, in one PEM text: in one file, they are never of two ages. */
export interface KeyAndCertificate {
  pem: string;
  certificate: X509Certificate;
}

/** A day before, for a tablet whose clock is slow. */
const validity = (at: Date, days: number) => ({
  notBefore: new Date(at.getTime() - dayMs),
  notAfter: new Date(at.getTime() + (days - 1) * dayMs),
});

const makeKeys = () => crypto.subtle.generateKey(curve, true, ["sign", "verify"]);

// 16 bytes, the first neither 0 nor above 127: a positive number of full length (RFC 5280 4.1.2.2).
const makeSerial = () => {
  const bytes = randomBytes(16);
  bytes[0] = (bytes[0]! & 0x3f) | 0x40;
  return bytes.toString("hex");
};

interface AuthorityOptions {
  hostName: string;
  permitted: Permitted;
  at: Date;
}

/** A certificate authority of this machine's own, for ten years. */
export async function makeAuthority(told: AuthorityOptions): Promise<KeyAndCertificate> {
  const { hostName, permitted, at } = told;
  const x509 = await loadX509();
  const keys = await makeKeys();
  const name = `Tubule on ${hostName || "this PC"} (${at.toISOString().slice(0, 10)})`;
  const { keyCertSign, cRLSign } = x509.KeyUsageFlags;
  const made = await x509.X509CertificateGenerator.createSelfSigned(
    {
      ...validity(at, 3653),
      serialNumber: makeSerial(),
      name: [{ CN: [name] }],
      keys,
      signingAlgorithm: signing,
      extensions: [
        new x509.BasicConstraintsExtension(true, 0, true),
        new x509.KeyUsagesExtension(keyCertSign | cRLSign, true),
        new x509.Extension(nameConstraints, true, Uint8Array.from(encodePermitted(permitted))),
        await x509.SubjectKeyIdentifierExtension.create(keys.publicKey, false, crypto),
      ],
    },
    crypto,
  );
  return together(keys.privateKey, made);
}

interface IssueOptions {
  authority: KeyAndCertificate;
  names: MachineNames;
  at: Date;
}

/** A certificate of this server, for 397 days: browsers take none that lasts longer. */
export async function issueCertificate(told: IssueOptions): Promise<KeyAndCertificate> {
  const { authority, names, at } = told;
  const x509 = await loadX509();
  const issuer = new x509.X509Certificate(authority.certificate.toString());
  const keys = await makeKeys();
  const made = await x509.X509CertificateGenerator.create(
    {
      ...validity(at, 397),
      serialNumber: makeSerial(),
      subject: [{ CN: ["Tubule"] }],
      issuer: issuer.subjectName,
      publicKey: keys.publicKey,
      signingKey: await importSigningKey(authority.pem),
      signingAlgorithm: signing,
      extensions: [
        new x509.BasicConstraintsExtension(false, undefined, true),
        new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
        new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
        new x509.SubjectAlternativeNameExtension([
          ...names.domains.map((value) => ({ type: "dns" as const, value })),
          ...names.addresses.map((value) => ({ type: "ip" as const, value })),
        ]),
        await x509.AuthorityKeyIdentifierExtension.create(issuer.publicKey, false, crypto),
        await x509.SubjectKeyIdentifierExtension.create(keys.publicKey, false, crypto),
      ],
    },
    crypto,
  );
  return together(keys.privateKey, made);
}

const importSigningKey = (pem: string) =>
  crypto.subtle.importKey(
    "pkcs8",
    createPrivateKey(pem).export({ type: "pkcs8", format: "der" }),
    curve,
    false,
    ["sign"],
  );

async function together(
  privateKey: CryptoKey,
  certificate: { toString(format: "pem"): string },
): Promise<KeyAndCertificate> {
  const der = Buffer.from(await crypto.subtle.exportKey("pkcs8", privateKey));
  const key = createPrivateKey({ key: der, type: "pkcs8", format: "der" });
  const keyText = key.export({ type: "pkcs8", format: "pem" }) as string;
  return readTogether(`${keyText.trimEnd()}\n${certificate.toString("pem").trimEnd()}\n`);
}

/** The key and certificate of a PEM text; throws unless they belong together. */
export function readTogether(pem: string): KeyAndCertificate {
  const certificate = new X509Certificate(pem);
  if (!certificate.checkPrivateKey(createPrivateKey(pem))) {
    throw new Error("its key is not the certificate's");
  }
  return { pem, certificate };
}
