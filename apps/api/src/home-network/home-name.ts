import multicastDns from 'multicast-dns';
import { HOME_NAME } from './home-addresses.js';

/** Seconds for which an answer holds: of names that move with a machine (RFC 6762, 10). */
const HOLDS = 120;

export interface AnnouncedName {
  /** True once another machine was heard to answer to the same name. */
  isTaken(): boolean;
  stop(): Promise<void>;
}

interface NameParts {
  /** Where this machine is reached, asked for at each answer. */
  readonly addresses: () => readonly string[];
  /** Another port and address than those of the standard, for tests. */
  readonly port?: number;
  /** Hears that the name cannot be announced; nothing else depends on it. */
  readonly onFault: (error: unknown) => void;
}

/** Answers to the name of this machine at home (multicast DNS, RFC 6762) until told to stop. */
export const announceHomeName = ({ addresses, port, onFault }: NameParts): AnnouncedName => {
  let taken = false;
  const responder = multicastDns(port === undefined ? {} : { port });
  const records = (ttl: number) =>
    addresses().map((data) => ({ name: HOME_NAME, type: 'A' as const, ttl, flush: true, data }));
  const tell = (ttl: number, then?: () => void): void => {
    const answers = records(ttl);
    if (answers.length === 0) then?.();
    else responder.respond({ answers }, () => then?.());
  };
  responder.on('error', onFault);
  // Such as an interface that takes no part: the others do.
  responder.on('warning', () => undefined);
  responder.on('ready', () => {
    responder.query([{ name: HOME_NAME, type: 'A' }]);
    tell(HOLDS);
  });
  responder.on('query', ({ questions = [] }) => {
    const asked = questions.some(
      ({ name, type }) => name.toLowerCase() === HOME_NAME && ['A', 'ANY'].includes(type),
    );
    if (asked) tell(HOLDS);
  });
  responder.on('response', ({ answers = [] }) => {
    const own = addresses();
    for (const answer of answers)
      if (answer.type === 'A' && answer.name.toLowerCase() === HOME_NAME && answer.ttl !== 0)
        taken ||= !own.includes(answer.data);
  });
  return {
    isTaken: () => taken,
    stop: () => new Promise((resolve) => tell(0, () => responder.destroy(() => resolve()))),
  };
};
