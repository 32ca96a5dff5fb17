import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  expectStanding,
  faults,
  forgetSession,
  post,
  startAsked,
  stopAsked,
} from './asked-server.js';
import { operations, ownerOf } from './committed-operations.js';
import { documentOf, hostileRequests } from './hostile-values.js';
import type { MeteredServer } from './metered-server.js';

/** Of what is refused to whoever has no session: above nothing at all, with room for the engine's own housekeeping. */
const LONGEST_UNSIGNED_MS = 50;

describe('hostile sizes without a session', () => {
  let server: MeteredServer;
  beforeAll(async () => {
    server = await startAsked();
    forgetSession();
    await server.measure();
  });
  afterAll(stopAsked);

  /** The first answers by the session alone; the others change who is signed in. */
  const open = [
    ...['session', 'setUp', 'signIn', 'signOut', 'loadDemo', 'openDemo'],
    ...['invitation', 'acceptInvitation', 'askPasskey', 'signInWithPasskey'],
  ];
  const closed = operations.filter(({ name }) => !open.includes(name));

  it.each(operations.filter(({ name }) => open.includes(name)))(
    '$name, which is open to all, stands',
    async ({ name, kind, operation }) => {
      faults.length = 0;
      for (const { name: how, variables } of hostileRequests(ownerOf(kind), operation, {})) {
        const query = documentOf(kind, operation, Object.keys(variables), 1);
        await server.measure();
        forgetSession();
        const answer = await post(JSON.stringify({ query, variables }));
        await expectStanding(`${name}, ${how}`, answer);
      }
      forgetSession();
      expect(faults).toEqual([]);
      expect(server.ended()).toBeNull();
    },
  );

  it.each(closed)('$name is refused before any work', async ({ name, kind, operation }) => {
    faults.length = 0;
    for (const { name: how, variables } of hostileRequests(ownerOf(kind), operation, {})) {
      const query = documentOf(kind, operation, Object.keys(variables), 1);
      await server.measure();
      const answer = await post(JSON.stringify({ query, variables }));
      const { standMs } = await expectStanding(`${name}, ${how}`, answer);
      // What does not fit the few bytes of a sign-in is not even read.
      if (answer.status !== 401 && answer.status !== 413 && answer.status !== 400)
        faults.push(`${name}, ${how}: answered with ${answer.status}`);
      if (answer.status === 401) expect(answer.codes).toEqual(['SIGN_IN_NEEDED']);
      if (standMs > LONGEST_UNSIGNED_MS) faults.push(`${name}, ${how}: worked ${standMs} ms`);
    }
    const least = documentOf(kind, operation, [], 0);
    expect(await post(JSON.stringify({ query: least }))).toMatchObject({
      status: 401,
      codes: ['SIGN_IN_NEEDED'],
    });
    expect(faults).toEqual([]);
  });
});
