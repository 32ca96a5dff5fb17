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

it('whoever is gone before their turn makes room, and is not worked for', async () => {
  const turns = new Turns(1, 1);
  const first = held();
  const gone = new AbortController();
  const began: string[] = [];
  const work = (name: string) => (): Promise<string> => {
    began.push(name);
    return Promise.resolve(name);
  };
  const working = turns.take(() => first.until);
  const left = turns.take(work('left'), gone.signal);
  const full = turns.take(work('full'));
  await expect(full).rejects.toMatchObject({ code: 'WORK_TOO_LONG' });
  gone.abort(new Error('left'));
  await expect(left).rejects.toThrow('left');
  const waiting = turns.take(work('waited'));
  first.end();
  await working;
  expect(await waiting).toBe('waited');
  expect(began).toEqual(['waited']);
  await expect(turns.take(work('gone'), gone.signal)).rejects.toThrow('left');
  expect(await turns.take(work('next'))).toBe('next');
});
