/** By which private addresses and names devices of the same network reach this machine. */
import { BlockList, isIPv4, isIPv6 } from 'node:net';
import type { NetworkInterfaceInfo } from 'node:os';

/** What a certificate of our own may vouch for: addresses that mean nothing on the internet. */
export const privateRanges: readonly (readonly [address: string, bits: number])[] = [
  ['127.0.0.0', 8], // RFC 1122, 3.2.1.3
  ['10.0.0.0', 8], // RFC 1918, with the next two
  ['172.16.0.0', 12],
  ['192.168.0.0', 16],
  ['169.254.0.0', 16], // RFC 3927
  ['100.64.0.0', 10], // RFC 6598
  ['::1', 128], // RFC 4291, 2.5.3
  ['fc00::', 7], // RFC 4193
];

/** And names: RFC 6761, RFC 6762, RFC 8375; "internal" is reserved for private use by ICANN. */
export const privateDomains = ['localhost', 'local', 'home.arpa', 'internal'] as const;

const privateAddresses = new BlockList();
for (const [address, bits] of privateRanges) {
  privateAddresses.addSubnet(address, bits, isIPv4(address) ? 'ipv4' : 'ipv6');
}

/** Interfaces of programs that play a network inside of this machine: no tablet is there. */
const insideOnly = /^(docker|br-|veth|virbr|vmnet|vboxnet|cni|flannel)/;

/** Whether this address is one of a private network, or of this machine alone. */
export function isPrivate(address: string): boolean {
  if (isIPv4(address)) return privateAddresses.check(address, 'ipv4');
  return isIPv6(address) && privateAddresses.check(address, 'ipv6');
}

/** Whether a name or address means this machine to itself only. */
export function isThisMachine(name: string): boolean {
  return name === 'localhost' || name === '::1' || /^127\./.test(name);
}

/**
 * Names and addresses of this machine that a certificate of its own can vouch for, the likeliest
 * for a tablet first, those that only this machine itself may use last.
 * @param interfaces as of os.networkInterfaces()
 * @param hostName as of os.hostname(); one without a domain is known as NAME.local (RFC 6762)
 */
export function namesOfMachine(
  interfaces: Readonly<Record<string, readonly NetworkInterfaceInfo[] | undefined>>,
  hostName: string,
): string[] {
  const found = Object.entries(interfaces)
    .flatMap(([name, infos]) => (infos ?? []).map((info) => ({ name, ...info })))
    .filter(({ address, internal }) => !internal && isPrivate(address))
    .sort((a, b) => rank(a) - rank(b));
  const names = [...found.map(({ address }) => address), localName(hostName)];
  const outside = names.filter((name) => name !== undefined && !isThisMachine(name));
  return [...new Set([...(outside as string[]), 'localhost', '127.0.0.1', '::1'])];
}

function rank({ name, family }: { name: string; family: string }): number {
  return (insideOnly.test(name) ? 2 : 0) + (family === 'IPv4' ? 0 : 1);
}

function localName(hostName: string): string | undefined {
  const name = hostName.toLowerCase();
  const label = '[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?';
  if (new RegExp(`^${label}$`).test(name))
    return name === 'localhost' ? undefined : `${name}.local`;
  if (!new RegExp(`^(${label}\\.)+${label}$`).test(name)) return undefined;
  return privateDomains.some((domain) => name.endsWith(`.${domain}`)) ? name : undefined;
}
