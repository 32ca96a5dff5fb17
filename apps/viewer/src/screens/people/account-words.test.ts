import { describe, expect, it } from 'vitest';
import type { Account } from '../../api/people.js';
import { standingOf } from './account-words.js';

const account: Account = {
  person: { id: 'p', name: 'Runa', here: false },
  role: 'PARTNER',
  invitedUntil: null,
  joined: false,
  paired: false,
  lastSeen: null,
};

describe('where an account stands', () => {
  it.each([
    [{ invitedUntil: '2026-03-14T08:30:00Z' }, /^invited until .*2026/],
    [{}, /^the link has ended$/],
    // No link was ever made for a partner who is paired by a code.
    [{ paired: true }, /^has an install of their own$/],
    [{ paired: true, joined: true }, /^not signed in anywhere$/],
    [{ joined: true }, /^not signed in anywhere$/],
    [{ joined: true, lastSeen: '2026-03-14T08:30:00Z' }, /^last here .*2026/],
    // A new link for a lost password: whoever is in stays in until it is used.
    [{ joined: true, invitedUntil: '2026-03-14T08:30:00Z' }, /^invited until/],
  ])('%j', (of, words) => {
    expect(standingOf({ ...account, ...of })).toMatch(words);
  });
});
