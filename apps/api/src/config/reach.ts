import { isIP } from 'node:net';

/** How a request came here, as far as it can be told. */
export interface Reached {
  /** Address at the other end of the connection. */
  readonly peer: string | undefined;
  /** The Host header. */
  readonly host: string | undefined;
  /** The Origin header; programs without a browser send none. */
  readonly origin: string | undefined;
  /** True when a header says that something in between passed it on. */
  readonly forwarded: boolean;
}

/** What the settings say of how this install is reached. */
export interface ReachSettings {
  /** Address listened on. */
  readonly host: string;
  readonly trustProxy: boolean;
  readonly publicAddress: string | undefined;
}

const bare = (host: string): string => host.replace(/^\[|\]$/g, '').toLowerCase();

/** Name or address of a Host header, without its port; `null` for what is no such header. */
const nameOf = (header: string | undefined): string | null => {
  if (header === undefined || !/^(\[[\da-f:.]+\]|[\w.-]+)(:\d{1,5})?$/i.test(header)) return null;
  return bare(header.replace(/:\d{1,5}$/, ''));
};

/** Addresses and names that mean "this machine" on whatever machine reads them. */
export const isLoopback = (host: string): boolean =>
  /^(localhost|::1|(::ffff:)?127(\.\d{1,3}){3})$/.test(bare(host));

/**
 * True when the settings let nobody in from another machine. A proxy, on this machine too, passes on whoever asks: the address
 * listened on says nothing then.
 */
export const isForThisMachineOnly = ({
  host,
  trustProxy,
}: Omit<ReachSettings, 'publicAddress'>): boolean => isLoopback(host) && !trustProxy;

/**
 * True when a request is from a browser or program on this machine itself. All must hold: the connection comes from a
 * loopback address, the Host and the Origin name this machine (a page of another site, or a name turned to 127.0.0.1, does
 * not), nothing says that it was passed on, and no proxy is set: behind one on the same machine everybody looks local.
 */
export const isFromThisMachine = (
  { peer, host, origin, forwarded }: Reached,
  { trustProxy }: Pick<ReachSettings, 'trustProxy'>,
): boolean => {
  if (trustProxy || forwarded || peer === undefined || !isLoopback(peer)) return false;
  const name = nameOf(host);
  if (name === null || !isLoopback(name)) return false;
  return origin === undefined || (URL.canParse(origin) && isLoopback(new URL(origin).hostname));
};

/**
 * True when the Host header names this install: this machine, the address listened on, PUBLIC_ADDRESS, and any bare IP
 * address (a page elsewhere can turn a name of its own to this machine, never an address); at home also `homeNames`.
 */
export const isAllowedHost = (
  header: string | undefined,
  { host, publicAddress }: Omit<ReachSettings, 'trustProxy'>,
  homeNames: readonly string[] = [],
): boolean => {
  const name = nameOf(header);
  if (name === null) return false;
  if (isLoopback(name) || isIP(name) !== 0 || name === bare(host)) return true;
  if (homeNames.includes(name)) return true;
  return publicAddress !== undefined && name === bare(new URL(publicAddress).hostname);
};
