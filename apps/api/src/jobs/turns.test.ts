import { expect, it } from 'vitest';
import { Turns } from './turns.js';

const held = () => {
  let end = (): void => undefined;
  const until = new Promise<void>((resolve) => (end = resolve));
  return { until, end };
};

it('lets two work, two wait in order, and refuses the fifth', async () => {
  const turns = new Turns(2, 2);
  const began: number[] = [];
  const all = [1, 2, 3, 4, 5].map((n) => ({ n, ...held() }));
  const taken = all.map(({ n, until }) =>
    turns.take(async () => {
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
  const turns = new Turns(1, 1);
  const first = turns.take(() => Promise.reject(new Error('broken')));
  const second = turns.take(() => Promise.resolve('whole'));
  await expect(first).rejects.toThrow('broken');
  expect(await second).toBe('whole');
});

it('lets whoever has gone out of the row, and never begins their work', async () => {
  const turns = new Turns(1, 1);
  const first = held();
  const busy = turns.take(() => first.until);
  const leaving = new AbortController();
  let began = false;
  const left = turns.take(() => {
    began = true;
    return Promise.resolve();
  }, leaving.signal);
  leaving.abort(new Error('gone'));
  await expect(left).rejects.toThrow('gone');
  // The place in the row is free again.
  const next = turns.take(() => Promise.resolve('next'));
  first.end();
  await busy;
  expect(await next).toBe('next');
  await expect(turns.take(() => Promise.resolve(), leaving.signal)).rejects.toThrow('gone');
  expect(began).toBe(false);
});
