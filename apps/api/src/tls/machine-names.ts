import { hostname, networkInterfaces } from "node:os";
import { BlockList, isIP, isIPv4 } from "node:net";
import { domainToASCII } from "node:url";
import { isLoopback } from "../config.ts";

/** By what other devices, and this one, can ask for this machine. */
export interface MachineNames {
  domains: string[];
  addresses: string[];
}

/** What a name or address is asked of; a test says others. */
export interface Machine {
  name: string;
  interfaces: ReturnType<typeof networkInterfaces>;
}

export const thisMachine = (): Machine => ({ name: hostname(), interfaces: networkInterfaces() });

const local = new BlockList();
local.addSubnet("fc00::", 7, "ipv6");

// Between this machine and what runs inside it or far away: no tablet comes in there.
const inside = /^(docker|podman|br-|veth|virbr|vEthernet|vmnet|vboxnet|utun|tun|tap|wg)/i;

/**
 * Those that a tablet can reach come first. Of IPv6 the addresses of a private network alone: a
 * public one changes every day, and one that begins with fe80 cannot be typed into a browser.
 */
export const listAddresses = ({ interfaces }: Machine): string[] =>
  Object.entries(interfaces)
    .sort(([one], [other]) => Number(inside.test(one)) - Number(inside.test(other)))
    .flatMap(([, each]) => each ?? [])
    .filter(({ address, internal }) => !internal && (isIPv4(address) || isPrivateIPv6(address)))
    .map(({ address }) => address);

const isPrivateIPv6 = (address: string): boolean => local.check(address, "ipv6");

/** The host's name as the network writes it; empty where it has letters that no name may have. */
export function readHostName({ name }: Machine): string {
  const ascii = domainToASCII(name.toLowerCase());
  return /^[a-z0-9-]+(\.[a-z0-9-]+)*$/.test(ascii) ? ascii : "";
}

/** `pc.local` for `pc` and for `pc.some.network`: what devices find without a name server. */
const localNameOf = (hostName: string): string => `${hostName.split(".")[0]}.local`;

export const isEverywhere = (host: string): boolean => host === "0.0.0.0" || host === "::";

/** Every name and address for a certificate, of a server that listens on `host`. */
export function listNames(machine: Machine, host: string): MachineNames {
  const hostName = readHostName(machine);
  const names = hostName === "" ? [] : [hostName, localNameOf(hostName)];
  const asked = isEverywhere(host) ? [] : [host.toLowerCase()];
  return {
    domains: unique(["localhost", ...names, ...asked.filter((each) => isIP(each) === 0)]),
    addresses: unique(["127.0.0.1", "::1", ...listAddresses(machine), ...asked.filter(isIP)]),
  };
}

const unique = (list: readonly string[]): string[] => [...new Set(list)];

/**
 * How a device would write the places where `host` is listened on, the surest first. Without a
 * network that is this one alone.
 */
export function listPlaces(machine: Machine, host: string): string[] {
  if (isLoopback(host)) return ["localhost"];
  if (!isEverywhere(host)) return [host];
  const addresses = listAddresses(machine).filter((each) => host === "::" || isIPv4(each));
  if (addresses.length === 0) return ["localhost"];
  const hostName = readHostName(machine);
  return [...addresses, ...(hostName === "" ? [] : [localNameOf(hostName)])];
}

export const inAddress = (place: string): string => (place.includes(":") ? `[${place}]` : place);
