/**
 * What the certificate authority may sign for, as the name constraints of RFC 5280 4.2.1.10: local
 * names and private addresses. Whoever stole its key could not pass for a bank with it.
 */
import { BlockList, isIPv4 } from "node:net";
import { listAddresses, readHostName, type Machine, type MachineNames } from "./machine-names.ts";

export interface Permitted {
  /** Each with all names below it. */
  domains: string[];
  /** As in `192.168.0.0/16`. */
  networks: string[];
}

export const nameConstraints = "2.5.29.30";

const privateDomains = ["localhost", "local", "internal", "home.arpa"];
/** RFC 1122, 1918, 3927, 6598; 4193 and 4291. */
const privateNetworks = [
  "127.0.0.0/8",
  "10.0.0.0/8",
  "172.16.0.0/12",
  "192.168.0.0/16",
  "169.254.0.0/16",
  "100.64.0.0/10",
  "::1/128",
  "fc00::/7",
];

/** The usual ones, the name of this machine, and its own network where that is a public one. */
export function permittedHere(machine: Machine): Permitted {
  const hostName = readHostName(machine);
  const usual = { domains: privateDomains, networks: privateNetworks };
  const isNewName = hostName !== "" && !permitsDomain(usual, hostName);
  const strange = listAddresses(machine).filter((each) => !permitsAddress(usual, each));
  const cidrs = Object.values(machine.interfaces).flatMap((each) => each ?? []);
  const own = strange.flatMap((each) => cidrs.find(({ address }) => address === each)?.cidr ?? []);
  return {
    domains: [...privateDomains, ...(isNewName ? [hostName] : [])],
    networks: [...privateNetworks, ...new Set(own)],
  };
}

/** Those of the names that the authority may sign for: with another one, no browser takes it. */
export const permittedOf = (names: MachineNames, permitted: Permitted): MachineNames => ({
  domains: names.domains.filter((each) => permitsDomain(permitted, each)),
  addresses: names.addresses.filter((each) => permitsAddress(permitted, each)),
});

const permitsDomain = ({ domains }: Permitted, name: string): boolean =>
  domains.some((domain) => name === domain || name.endsWith(`.${domain}`));

const familyOf = (address: string): "ipv4" | "ipv6" => (isIPv4(address) ? "ipv4" : "ipv6");

function permitsAddress({ networks }: Permitted, address: string): boolean {
  const family = familyOf(address);
  return networks.some((network) => {
    const [base = "", bits] = network.split("/");
    if (familyOf(base) !== family) return false;
    const list = new BlockList();
    list.addSubnet(base, Number(bits), family);
    return list.check(address, family);
  });
}

const tags = {
  sequence: 0x30,
  octets: 0x04,
  oid: 0x06,
  permitted: 0xa0,
  domain: 0x82,
  network: 0x87,
};

/** The extension's value in DER. */
export function encodePermitted({ domains, networks }: Permitted): Buffer {
  const names = [
    ...domains.map((domain) => encode(tags.domain, [Buffer.from(domain, "latin1")])),
    ...networks.map((network) => encode(tags.network, [bytesOfNetwork(network)])),
  ];
  const subtrees = names.map((name) => encode(tags.sequence, [name]));
  return encode(tags.sequence, [encode(tags.permitted, subtrees)]);
}

/** Reads it back from a certificate; undefined where it has none of this kind. */
export function readPermitted(certificate: Buffer): Permitted | undefined {
  const [body] = decode(decode(certificate)[0]!.content);
  const extensions = decode(body!.content).find(({ tag }) => tag === 0xa3);
  const value = decode(decode(extensions?.content ?? empty)[0]?.content ?? empty)
    .map(({ content }) => decode(content))
    .find(([oid]) => oid?.content.equals(Buffer.from([0x55, 0x1d, 0x1e])))
    ?.find(({ tag }) => tag === tags.octets);
  if (value === undefined) return undefined;
  const [subtrees] = decode(decode(value.content)[0]!.content);
  const names = decode(subtrees!.content).map(({ content }) => decode(content)[0]!);
  const ofTag = (wanted: number) => names.filter(({ tag }) => tag === wanted);
  return {
    domains: ofTag(tags.domain).map(({ content }) => content.toString("latin1")),
    networks: ofTag(tags.network).map(({ content }) => networkOfBytes(content)),
  };
}

interface Part {
  tag: number;
  content: Buffer;
}

const empty = Buffer.alloc(0);

function encode(tag: number, contents: readonly Buffer[]): Buffer {
  const content = Buffer.concat(contents);
  return Buffer.concat([Buffer.from([tag, ...lengthOf(content)]), content]);
}

/** In as few bytes as it takes (X.690 10.1): Chromium refuses the whole certificate otherwise. */
function lengthOf({ length }: Buffer): number[] {
  if (length < 0x80) return [length];
  return length < 0x100 ? [0x81, length] : [0x82, length >> 8, length & 0xff];
}

function decode(bytes: Buffer): Part[] {
  const parts: Part[] = [];
  for (let at = 0; at < bytes.length;) {
    const first = bytes[at + 1]!;
    const lengthBytes = first < 0x80 ? 0 : first & 0x7f;
    const from = at + 2 + lengthBytes;
    const length = lengthBytes === 0 ? first : bytes.readUIntBE(at + 2, lengthBytes);
    parts.push({ tag: bytes[at]!, content: bytes.subarray(from, from + length) });
    at = from + length;
  }
  return parts;
}

/** The address, then the mask. */
function bytesOfNetwork(network: string): Buffer {
  const [base = "", bits] = network.split("/");
  const address = bytesOfAddress(base);
  const mask = address.map((_byte, i) => 0xff00 >> clamp(Number(bits) - 8 * i));
  return Buffer.concat([address.map((byte, i) => byte & mask[i]!), mask]);
}

const clamp = (bits: number): number => Math.min(8, Math.max(0, bits));

function bytesOfAddress(address: string): Buffer {
  if (isIPv4(address)) return Buffer.from(address.split(".").map(Number));
  const [left = "", right = ""] = address.split("::");
  const groups = (half: string) => (half === "" ? [] : half.split(":"));
  const zeros = 8 - groups(left).length - groups(right).length;
  const all = [...groups(left), ...Array<string>(zeros).fill("0"), ...groups(right)];
  return Buffer.from(all.map((group) => group.padStart(4, "0")).join(""), "hex");
}

function networkOfBytes(bytes: Buffer): string {
  const half = bytes.length / 2;
  const bits = [...bytes.subarray(half)].reduce((sum, byte) => sum + bitsOf(byte), 0);
  const address = bytes.subarray(0, half);
  if (half === 4) return `${address.join(".")}/${bits}`;
  const groups = address.toString("hex").match(/.{4}/g)!.join(":");
  // A URL writes the zeros short, as people do.
  return `${new URL(`http://[${groups}]`).hostname.slice(1, -1)}/${bits}`;
}

const bitsOf = (byte: number): number => byte.toString(2).replaceAll("0", "").length;
