/** The certificate authority and what it issues, as node's own TLS (OpenSSL) takes them. */
import type { X509Certificate } from "node:crypto";
import {
  chmod,
  chown,
  mkdir,
  mkdtemp,
  readdir,
  readFile,
  rename,
  rm,
  stat,
  writeFile,
} from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import { openAuthority, type Authority } from "../../apps/api/src/tls/authority.ts";
import { issueCertificate } from "../../apps/api/src/tls/issue.ts";
import {
  CertificateKeeper,
  isNamed,
  readAuthorityNote,
} from "../../apps/api/src/tls/keep-certificate.ts";
import { listNames, listPlaces } from "../../apps/api/src/tls/machine-names.ts";
import {
  encodePermitted,
  permittedHere,
  permittedOf,
  readPermitted,
} from "../../apps/api/src/tls/permitted.ts";
import { isRoot } from "../helpers/embedded.ts";
import { closeServers, machineOf, serveTls, shakeHands } from "./handshake.ts";

const dayMs = 86_400_000;
// Certificates are verified by the true clock, so they are made at it.
const now = new Date();
const inDays = (days: number) => new Date(now.getTime() + days * dayMs);
const office = machineOf("Office-PC", "192.168.7.20/24", "fd00:7::20/64", "2001:db8::20/64");

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), "tubule-tls-"));
});
afterAll(async () => {
  closeServers();
  await rm(folder, { recursive: true, force: true });
});

let count = 0;
const newFolder = (): string => path.join(folder, `data-${++count}`);
const openNew = (dataFolder: string, machine = office, at = now): Promise<Authority> =>
  openAuthority({ dataFolder, machine, at });

/** What is served, and what was said meanwhile. */
async function keep(authority: Authority, machine = office, at = now) {
  const said: string[] = [];
  const keeper = new CertificateKeeper(authority, (line) => said.push(line));
  await keeper.refresh(listNames(machine, "0.0.0.0"), at);
  return { keeper, said, certificate: keeper.served.certificate };
}

const serverFile = (dataFolder: string) => path.join(dataFolder, "tls", "server.pem");
const authorityFile = (dataFolder: string) => path.join(dataFolder, "tls", "ca.pem");

describe("a certificate of a new authority", () => {
  let authority: Authority;
  let port: number;
  let certificate: X509Certificate;
  beforeAll(async () => {
    authority = await openNew(newFolder());
    const { keeper } = await keep(authority);
    ({ certificate } = keeper.served);
    port = await serveTls(keeper.served.pem);
  });

  test("is taken by a client that trusts the authority alone, by every name and address", async () => {
    const ca = authority.certificate.toString();
    for (const servername of ["localhost", "office-pc", "office-pc.local"]) {
      expect([servername, await shakeHands({ port, ca, servername })]).toEqual([
        servername,
        "TLSv1.3",
      ]);
    }
    expect(await shakeHands({ port, ca })).toBe("TLSv1.3");
    for (const address of ["127.0.0.1", "::1", "192.168.7.20", "fd00:7::20"]) {
      expect([address, certificate.checkIP(address)]).toEqual([address, address]);
    }
  });

  test("is refused by a client that trusts another authority, and under another name", async () => {
    const other = await openNew(newFolder());
    const ca = other.certificate.toString();
    expect(await shakeHands({ port, ca, servername: "localhost" })).toMatch(/^UNABLE_TO|^SELF_/);
    const mine = authority.certificate.toString();
    const wrong = { port, ca: mine, servername: "other-pc" };
    expect(await shakeHands(wrong)).toBe("ERR_TLS_CERT_ALTNAME_INVALID");
  });

  test("names no public address of IPv6: it would be another one tomorrow", () => {
    expect(certificate.checkIP("2001:db8::20")).toBeUndefined();
  });

  test("lasts 397 days from yesterday, its authority ten years", () => {
    const spanOf = ({ validFrom, validTo }: X509Certificate) => ({
      beforeDays: (now.getTime() - Date.parse(validFrom)) / dayMs,
      days: (Date.parse(validTo) - Date.parse(validFrom)) / dayMs,
    });
    expect(spanOf(certificate).days).toBeLessThanOrEqual(397);
    expect(spanOf(certificate).days).toBeGreaterThan(396);
    expect(spanOf(certificate).beforeDays).toBeCloseTo(1, 3);
    expect(spanOf(authority.certificate).days).toBeCloseTo(3653, 0);
    expect([authority.certificate.ca, certificate.ca]).toEqual([true, false]);
    // id-kp-serverAuth, RFC 5280 4.2.1.12.
    expect(certificate.keyUsage).toEqual(["1.3.6.1.5.5.7.3.1"]);
    expect(authority.certificate.subject).toBe(
      `CN=Tubule on office-pc (${now.toISOString().slice(0, 10)})`,
    );
  });
});

describe("the authority can sign", () => {
  // X509_V_ERR_PERMITTED_VIOLATION of OpenSSL, in its words.
  const refused = "permitted subtree violation";
  const sign = async (domains: string[], addresses: string[]) => {
    const authority = await openNew(newFolder());
    const names = { domains, addresses };
    const { pem } = await issueCertificate({ authority, names, at: now });
    const [servername = "localhost"] = domains;
    const checkServerIdentity = () => undefined;
    return shakeHands({
      port: await serveTls(pem),
      ca: authority.certificate.toString(),
      servername,
      checkServerIdentity,
    });
  };

  test("for local names and private addresses", async () => {
    expect(await sign(["other.local", "x.home.arpa"], ["10.1.2.3", "172.31.0.9"])).toBe("TLSv1.3");
  });
  test("for no name of the Internet, that a client would take", async () => {
    expect(await sign(["bank.example"], [])).toBe(refused);
    expect(await sign(["localhost", "bank.example"], [])).toBe(refused);
  });
  test("for no public address, that a client would take", async () => {
    expect(await sign(["localhost"], ["203.0.113.7"])).toBe(refused);
    expect(await sign(["localhost"], ["172.32.0.1"])).toBe(refused);
    expect(await sign(["localhost"], ["2001:db8::1"])).toBe(refused);
  });
});

describe("what may be signed for", () => {
  const strange = machineOf("pc.praxis.example", "203.0.113.7/26", "100.64.1.1/10");

  test("is written into the authority and read back", async () => {
    const authority = await openNew(newFolder(), strange);
    const permitted = permittedHere(strange);
    expect(permitted.domains).toContain("pc.praxis.example");
    expect(permitted.networks.at(-1)).toBe("203.0.113.7/26");
    const read = readPermitted(authority.certificate.raw)!;
    expect(read.domains).toEqual(permitted.domains);
    // The network of the address: 203.0.113.0 to .63.
    expect(read.networks.at(-1)).toBe("203.0.113.0/26");
    expect(encodePermitted(read)).toEqual(encodePermitted(permitted));
  });

  test("is written as short as DER asks for, whatever its length", () => {
    const constraints = (count: number) =>
      encodePermitted({ domains: Array.from({ length: count }, () => "local"), networks: [] });
    // By hand from X.690 8.1.3 and 10.1: one name takes 9 bytes (30 07 82 05 and five letters).
    expect(constraints(1).toString("hex")).toBe("300ba009300782056c6f63616c");
    const heads = [13, 14, 27, 28, 29].map((count) =>
      constraints(count).subarray(0, 6).toString("hex"),
    );
    expect(heads).toEqual([
      "3077a0753007",
      "308180a07e30",
      "3081f6a081f3",
      "3081ffa081fc",
      "30820109a082",
    ]);
  });

  test("leaves out a name that came later, so that the others stay valid", async () => {
    const { permitted } = await openNew(newFolder(), strange);
    const later = machineOf("new-name", "198.51.100.4/24", "203.0.113.9/26");
    expect(permittedOf(listNames(later, "0.0.0.0"), permitted)).toEqual({
      domains: ["localhost", "new-name.local"],
      addresses: ["127.0.0.1", "::1", "203.0.113.9"],
    });
  });
});

describe("a name of the machine", () => {
  test("with letters that no name may have is left out", () => {
    expect(listNames(machineOf("empfang_1"), "0.0.0.0").domains).toEqual(["localhost"]);
    expect(listNames(machineOf("Müller-PC"), "0.0.0.0").domains).toEqual([
      "localhost",
      "xn--mller-pc-65a",
      "xn--mller-pc-65a.local",
    ]);
  });

  test("is told to tablets after the addresses that they can reach", () => {
    expect(listPlaces(office, "0.0.0.0")).toEqual(["192.168.7.20", "office-pc.local"]);
    expect(listPlaces(office, "::")).toEqual(["192.168.7.20", "fd00:7::20", "office-pc.local"]);
    expect(listPlaces(machineOf("office-pc"), "0.0.0.0")).toEqual(["localhost"]);
    expect(listPlaces(office, "127.0.0.1")).toEqual(["localhost"]);
    expect(listPlaces(office, "192.168.7.20")).toEqual(["192.168.7.20"]);
  });

  test("comes after the addresses of its own network, and those after no virtual one", () => {
    const { card: inner } = machineOf("", "172.17.0.1/16").interfaces;
    const { card: outer } = office.interfaces;
    const machine = { name: "pc", interfaces: { docker0: inner, eth0: outer } };
    expect(listPlaces(machine, "0.0.0.0")).toEqual(["192.168.7.20", "172.17.0.1", "pc.local"]);
  });

  test("is taken from HOST as well", () => {
    expect(listNames(office, "tubule.internal").domains).toContain("tubule.internal");
    expect(listNames(office, "192.168.9.9").addresses).toContain("192.168.9.9");
  });
});

describe("a kept certificate", () => {
  test("serves again at the next start", async () => {
    const dataFolder = newFolder();
    const first = await keep(await openNew(dataFolder));
    const second = await keep(await openNew(dataFolder));
    expect(second.certificate.fingerprint256).toBe(first.certificate.fingerprint256);
    expect(await second.keeper.refresh(listNames(office, "0.0.0.0"), inDays(1))).toBe(false);
  });

  test("is for its owner alone, with its folder", async () => {
    const dataFolder = newFolder();
    await keep(await openNew(dataFolder));
    const modeOf = async (place: string) => (await stat(place)).mode & 0o777;
    expect(await modeOf(path.join(dataFolder, "tls"))).toBe(0o700);
    expect(await modeOf(authorityFile(dataFolder))).toBe(0o600);
    expect(await modeOf(serverFile(dataFolder))).toBe(0o600);
    await chmod(authorityFile(dataFolder), 0o644);
    await openNew(dataFolder);
    expect(await modeOf(authorityFile(dataFolder))).toBe(0o600);
    expect((await readdir(path.join(dataFolder, "tls"))).sort()).toEqual(["ca.pem", "server.pem"]);
  });

  test("belongs to whoever has the data folder, also where root has started Tubule", async () => {
    const dataFolder = newFolder();
    await mkdir(dataFolder);
    const somebody = isRoot ? 65_534 : process.getuid!();
    if (isRoot) await chown(dataFolder, somebody, somebody);
    await keep(await openNew(dataFolder));
    const places = [
      path.join(dataFolder, "tls"),
      authorityFile(dataFolder),
      serverFile(dataFolder),
    ];
    const owners = await Promise.all(places.map(async (place) => (await stat(place)).uid));
    expect(owners).toEqual([somebody, somebody, somebody]);
  });

  test("is issued anew for a new address, and not for one that is gone", async () => {
    const { keeper, certificate } = await keep(await openNew(newFolder()));
    const moved = machineOf("Office-PC", "192.168.7.99/24");
    expect(await keeper.refresh(listNames(machineOf("Office-PC"), "0.0.0.0"), now)).toBe(false);
    expect(await keeper.refresh(listNames(moved, "0.0.0.0"), now)).toBe(true);
    const { certificate: next } = keeper.served;
    expect([certificate, next].map((each) => isNamed(each, "192.168.7.99"))).toEqual([false, true]);
    expect(isNamed(next, "192.168.7.20")).toBe(false);
    expect(await keeper.refresh(listNames(moved, "0.0.0.0"), now)).toBe(false);
  });

  test("is renewed 30 days before it ends, and where it has not begun", async () => {
    const authority = await openNew(newFolder());
    const names = listNames(office, "0.0.0.0");
    const { keeper } = await keep(authority);
    // 397 days from yesterday.
    expect(await keeper.refresh(names, inDays(365.9))).toBe(false);
    expect(await keeper.refresh(names, inDays(366.1))).toBe(true);
    // As after a day on which the clock was wrong.
    expect(await keeper.refresh(names, now)).toBe(true);
    expect(Date.parse(keeper.served.certificate.validFrom)).toBeLessThan(now.getTime());
  });

  test("is replaced when it is damaged, unreadable, of another authority or of another key", async () => {
    const dataFolder = newFolder();
    const authority = await openNew(dataFolder);
    const { keeper, certificate } = await keep(authority);
    const elsewhere = await keep(await openNew(newFolder()));
    const [key = ""] = keeper.served.pem.split("-----BEGIN CERTIFICATE");
    const [, itsCertificate = ""] = elsewhere.keeper.served.pem.split("-----BEGIN CERTIFICATE");
    const mixed = `${key}-----BEGIN CERTIFICATE${itsCertificate}`;
    const others = elsewhere.keeper.served.pem;
    for (const text of ["", "nonsense", keeper.served.pem.slice(0, 500), others, mixed]) {
      await writeFile(serverFile(dataFolder), text);
      const next = await keep(authority);
      expect(next.certificate.fingerprint256).not.toBe(certificate.fingerprint256);
      expect(next.certificate.verify(authority.certificate.publicKey)).toBe(true);
      expect(await readFile(serverFile(dataFolder), "utf8")).toBe(next.keeper.served.pem);
      expect(next.said).toEqual([]);
    }
  });

  test("that cannot be kept serves all the same, and that is said", async () => {
    const dataFolder = newFolder();
    const authority = await openNew(dataFolder);
    await mkdir(path.join(serverFile(dataFolder), "in-the-way"), { recursive: true });
    const { said, certificate } = await keep(authority);
    expect(certificate.verify(authority.certificate.publicKey)).toBe(true);
    expect(said).toEqual([expect.stringContaining("could not be kept")]);
    expect(await readdir(path.join(dataFolder, "tls"))).toEqual(["ca.pem", "server.pem"]);
  });
});

describe("the authority", () => {
  test("is one, however many start at once", async () => {
    const dataFolder = newFolder();
    const opened = await Promise.all(Array.from({ length: 12 }, () => openNew(dataFolder)));
    const kept = await Promise.all(opened.map((authority) => keep(authority)));
    expect(new Set(opened.map(({ certificate }) => certificate.fingerprint256)).size).toBe(1);
    const [{ certificate: issuer }] = opened as [Authority];
    for (const { certificate } of kept) expect(certificate.verify(issuer.publicKey)).toBe(true);
    expect(await readdir(dataFolder)).toEqual(["tls"]);
    expect((await readdir(path.join(dataFolder, "tls"))).sort()).toEqual(["ca.pem", "server.pem"]);
  });

  test("that is damaged or missing is not replaced, but said to be", async () => {
    const dataFolder = newFolder();
    await openNew(dataFolder);
    const file = authorityFile(dataFolder);
    const whole = await readFile(file, "utf8");
    const { keeper } = await keep(await openNew(newFolder()));
    for (const text of ["", whole.slice(0, 400), keeper.served.pem]) {
      await writeFile(file, text);
      await expect(openNew(dataFolder)).rejects.toThrow(
        /cannot be read.*move the folder .* aside/s,
      );
      expect(await readFile(file, "utf8")).toBe(text);
    }
    await rename(file, `${file}.gone`);
    await expect(openNew(dataFolder)).rejects.toThrow(/Put the file back/);
    expect(await readdir(path.dirname(file))).toEqual(["ca.pem.gone"]);
    // What the sentence says to do does help.
    await rename(path.join(dataFolder, "tls"), path.join(dataFolder, "tls-aside"));
    expect((await openNew(dataFolder)).certificate.ca).toBe(true);
  });

  test("is not made where nothing can be kept", async () => {
    const file = path.join(folder, "a-file");
    await writeFile(file, "");
    await expect(openNew(path.join(file, "data"))).rejects.toThrow(/cannot be kept in/);
  });

  test("is not made by a clock that stands before Tubule was", async () => {
    const dataFolder = newFolder();
    const early = new Date("2015-01-01T00:00:00Z");
    await expect(openNew(dataFolder, office, early)).rejects.toThrow(/clock of this PC says 2015/);
    await expect(stat(dataFolder)).rejects.toThrow("ENOENT");
  });

  test("says that it ends while there is time, and that a clock is wrong", async () => {
    const authority = await openNew(newFolder());
    expect(readAuthorityNote(authority, now)).toBeNull();
    expect(readAuthorityNote(authority, inDays(3500))).toBeNull();
    expect(readAuthorityNote(authority, inDays(3600))).toMatch(/ends on .* aside/);
    expect(readAuthorityNote(authority, inDays(-2))).toMatch(/clock right/);
  });
});
