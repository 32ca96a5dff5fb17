import type { Account } from '../../api/people.js';
import { showTime } from '../../wording/figures.js';

export const ROLES: Readonly<Record<Account['role'], string>> = {
  OWNER: 'Owner',
  HOUSEHOLD: 'Household: all records',
  PARTNER: 'Partner: what you share',
  KEEPER: 'Keeper: lines of their own',
};

/** Where an account stands: invited, the link ended, or in. */
export function standingOf({ joined, invitedUntil, lastSeen }: Account): string {
  if (lastSeen !== null) return `last here ${showTime(lastSeen)}`;
  if (invitedUntil !== null) return `invited until ${showTime(invitedUntil)}`;
  return joined ? 'not signed in anywhere' : 'the link has ended';
}
