import type { Account } from '../../api/people.js';
import { showTime } from '../../wording/figures.js';

export const ROLES: Readonly<Record<Account['role'], string>> = {
  OWNER: 'Owner',
  HOUSEHOLD: 'Household: all records',
  PARTNER: 'Partner: what you share',
  KEEPER: 'Keeper: lines of their own',
};

/** Where an account stands: in, invited, the link ended, or known by an install of their own alone. */
export function standingOf({ joined, paired, invitedUntil, lastSeen }: Account): string {
  if (lastSeen !== null) return `last here ${showTime(lastSeen)}`;
  if (invitedUntil !== null) return `invited until ${showTime(invitedUntil)}`;
  if (joined) return 'not signed in anywhere';
  return paired ? 'has an install of their own' : 'the link has ended';
}
