import { expect, it } from 'vitest';
import { Turns } from './turns.js';

const held = () => {
  let end = (): void => undefined;
  const until = new Promise<void>((resolve) => (end = resolve));
  return { until, end };
};

it('lets two work, two wait in order, and refuses the fifth', async () => {
  const turns = new Turns({ working: 2, waiting: 2, waitingOfOne: 2 });
  const began: number[] = [];
  const all = [1, 2, 3, 4, 5].map((n) => ({ n, ...held() }));
  const taken = all.map(({ n, until }) =>
    turns.take('one', async () => {
      began.push(n);
      await until;
      return n;
    }),
  );
  await expect(taken[4]).rejects.toMatchObject({ code: 'WORK_TOO_LONG' });
  expect(began).toEqual([1, 2]);
  all[1]?.end();
  expect(await taken[1]).toBe(2);
  await Promise.resolve();
  expect(began).toEqual([1, 2, 3]);
  for (const { end } of all) end();
  expect(await Promise.all(taken.slice(0, 4))).toEqual([1, 2, 3, 4]);
});

it('passes the turn on after an error', async () => {
  const turns = new Turns({ working: 1, waiting: 1, waitingOfOne: 1 });
  const first = turns.take('one', () => Promise.reject(new Error('broken')));
  const second = turns.take('one', () => Promise.resolve('whole'));
  await expect(first).rejects.toThrow('broken');
  expect(await second).toBe('whole');
});

it('lets whoever has gone out of the row, and never begins their work', async () => {
  const turns = new Turns({ working: 1, waiting: 1, waitingOfOne: 1 });
  const first = held();
  const busy = turns.take('one', () => first.until);
  const leaving = new AbortController();
  let began = false;
  const left = turns.take(
    'one',
    () => {
      began = true;
      return Promise.resolve();
    },
    leaving.signal,
  );
  leaving.abort(new Error('gone'));
  await expect(left).rejects.toThrow('gone');
  // The place in the row is free again.
  const next = turns.take('one', () => Promise.resolve('next'));
  first.end();
  await busy;
  expect(await next).toBe('next');
  await expect(turns.take('one', () => Promise.resolve(), leaving.signal)).rejects.toThrow('gone');
  expect(began).toBe(false);
});

it('serves those who ask turn about, each one’s own in order', async () => {
  const turns = new Turns({ working: 1, waiting: 10, waitingOfOne: 10 });
  const first = held();
  const busy = turns.take('much', () => first.until);
  const served: string[] = [];
  const ask = (asker: string, what: string): Promise<void> =>
    turns.take(asker, () => Promise.resolve(void served.push(what)));
  const all = [
    ...[1, 2, 3].map((n) => ask('much', `much ${n}`)),
    ask('little', 'little'),
    ...[1, 2].map((n) => ask('some', `some ${n}`)),
  ];
  first.end();
  await Promise.all([busy, ...all]);
  expect(served).toEqual(['much 1', 'little', 'some 1', 'much 2', 'some 2', 'much 3']);
});

it('refuses one whose own row is full, and takes others in', async () => {
  const turns = new Turns({ working: 1, waiting: 3, waitingOfOne: 1 });
  const first = held();
  const busy = turns.take('much', () => first.until);
  const waits = turns.take('much', () => Promise.resolve('served'));
  await expect(turns.take('much', () => Promise.resolve())).rejects.toThrow(/you asked for/);
  const other = turns.take('little', () => Promise.resolve('as well'));
  first.end();
  await busy;
  expect(await Promise.all([waits, other])).toEqual(['served', 'as well']);
});
