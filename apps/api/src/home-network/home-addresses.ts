import { BlockList } from 'node:net';
import { hostname, networkInterfaces } from 'node:os';

/** Private addresses of RFC 1918, which no router passes on to the internet. */
export const PRIVATE_RANGES = ['192.168.0.0/16', '10.0.0.0/8', '172.16.0.0/12'] as const;
/** This machine itself (RFC 1122), and addresses that machines give themselves where nobody hands any out (RFC 3927). */
const NEAR_RANGES = ['127.0.0.0/8', '169.254.0.0/16'] as const;

/** The name announced on the local network (multicast DNS, RFC 6762). */
export const HOME_NAME = 'linewright.local';

const listOf = (ranges: readonly string[]): BlockList => {
  const list = new BlockList();
  for (const range of ranges) {
    const [address, length] = range.split('/');
    list.addSubnet(address!, Number(length), 'ipv4');
  }
  return list;
};
const own = listOf(PRIVATE_RANGES);
const near = listOf([...PRIVATE_RANGES, ...NEAR_RANGES]);

/** Networks inside one machine, to other programs of it or through a tunnel: no phone is in there. */
const INSIDE = /^(docker|br-|veth|virbr|vmnet|vboxnet|vEthernet|utun|tun|tap|wg)/;

type Interfaces = ReturnType<typeof networkInterfaces>;

/** Where a phone on the same network finds this machine: private IPv4 addresses, those of most homes first. */
export const homeAddresses = (interfaces: Interfaces = networkInterfaces()): string[] => {
  const found = Object.entries(interfaces)
    .filter(([name]) => !INSIDE.test(name))
    .flatMap(([, addresses]) => addresses ?? [])
    .filter(({ family, internal, address }) => family === 'IPv4' && !internal && own.check(address))
    .map(({ address }) => address);
  const rank = (address: string): number =>
    PRIVATE_RANGES.findIndex((range) => listOf([range]).check(address));
  return [...new Set(found)].sort((a, b) => rank(a) - rank(b) || (a < b ? -1 : 1));
};

/** True for a caller on this machine or on a network at home; an address of the internet is neither. */
export const isAtHome = (peer: string | undefined): boolean => {
  const address = peer?.replace(/^::ffff:/i, '') ?? '';
  return /^[\d.]+$/.test(address) && near.check(address, 'ipv4');
};

/** Names that mean this machine at home: the one announced, and the machine's own. */
export const homeNames = (machine = hostname()): string[] => {
  const label = machine.split('.')[0]?.toLowerCase() ?? '';
  const usable = /^[a-z\d]([a-z\d-]{0,61}[a-z\d])?$/.test(label) && label !== 'localhost';
  return [...new Set([HOME_NAME, ...(usable ? [`${label}.local`] : [])])];
};
