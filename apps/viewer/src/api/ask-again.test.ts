import { Client, fetchExchange, gql } from '@urql/core';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { askAgain, Waiting } from './ask-again.js';

const AWAY = {
  data: null,
  errors: [{ message: 'The database is away.', extensions: { code: 'DATABASE_AWAY' } }],
};
const LINES = { data: { lines: [{ __typename: 'Line', id: '1' }] } };
const READ = gql`
  query Lines {
    lines {
      id
    }
  }
`;
const SAVE = gql`
  mutation Save {
    createLine {
      id
    }
  }
`;

describe('reads while the database is away', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  /** A client whose server gives these answers one after the other, and the last one for ever. */
  const clientOf = (...answers: object[]) => {
    const waiting = new Waiting();
    let asked = 0;
    const client = new Client({
      url: 'http://install.example/graphql',
      preferGetMethod: false,
      fetch: () => {
        const answer = answers[Math.min(asked, answers.length - 1)];
        asked += 1;
        return Promise.resolve(
          new Response(JSON.stringify(answer), {
            // The entrance says so of the whole request when it cannot even look the session up.
            status: answer === AWAY && asked === 1 ? 503 : 200,
            headers: { 'content-type': 'application/json' },
          }),
        );
      },
      exchanges: [askAgain(waiting), fetchExchange],
    });
    return { client, waiting, asked: () => asked };
  };

  it('are asked again by themselves until it is back, and the wait is told', async () => {
    const { client, waiting, asked } = clientOf(AWAY, AWAY, AWAY, LINES);
    const told: boolean[] = [];
    waiting.subscribe(() => told.push(waiting.any()));
    const answered = client.query(READ, {}).toPromise();
    await vi.advanceTimersByTimeAsync(500);
    expect([asked(), waiting.any()]).toEqual([1, true]);
    await vi.advanceTimersByTimeAsync(60_000);
    const { data, error } = await answered;
    expect([data, error]).toEqual([LINES.data, undefined]);
    expect(asked()).toBe(4);
    expect(told).toEqual([true, false]);
  });

  it('wait longer each time, a few seconds at most', async () => {
    const { client, asked } = clientOf(AWAY);
    void client.query(READ, {}).toPromise();
    await vi.advanceTimersByTimeAsync(60_000);
    expect(asked()).toBeGreaterThan(60 / 6);
    expect(asked()).toBeLessThan(20);
  });

  it('are not asked any more once their page was left', async () => {
    const { client, waiting, asked } = clientOf(AWAY);
    const { unsubscribe } = client.query(READ, {}).subscribe(() => undefined);
    await vi.advanceTimersByTimeAsync(500);
    unsubscribe();
    expect(waiting.any()).toBe(false);
    await vi.advanceTimersByTimeAsync(60_000);
    expect(asked()).toBe(1);
  });

  it('what went wrong otherwise is told at once', async () => {
    const { client, waiting } = clientOf({
      errors: [{ message: 'Gone.', extensions: { code: 'NOT_FOUND' } }],
    });
    const { error } = await client.query(READ, {}).toPromise();
    expect(error?.graphQLErrors[0]?.extensions['code']).toBe('NOT_FOUND');
    expect(waiting.any()).toBe(false);
  });

  it('and a save is told at once, and never sent twice', async () => {
    const { client, waiting, asked } = clientOf(AWAY, LINES);
    const { error } = await client.mutation(SAVE, {}).toPromise();
    expect(error?.graphQLErrors[0]?.extensions['code']).toBe('DATABASE_AWAY');
    await vi.advanceTimersByTimeAsync(60_000);
    expect([asked(), waiting.any()]).toEqual([1, false]);
  });
});
