import { describe, expect, it } from 'vitest';
import { RequestError } from '../errors/request-error.js';
import { LastUsed, workedOutOnce } from './last-used.js';

describe('values used last', () => {
  it('stay, and the one not used for longest goes', () => {
    const held = new LastUsed<number>(2);
    held.keep('a', 1);
    held.keep('b', 2);
    expect(held.get('a')).toBe(1);
    held.keep('c', 3);
    expect([held.get('a'), held.get('b'), held.get('c')]).toEqual([1, undefined, 3]);
  });

  it('are worked out once for all who ask meanwhile, and again after a failure', async () => {
    const held = new LastUsed<Promise<string>>(2);
    let turns = 0;
    const fails = (): Promise<string> => Promise.reject(new Error(`turn ${++turns}`));
    const both = [workedOutOnce(held, 'a', fails), workedOutOnce(held, 'a', fails)];
    for (const one of both) await expect(one).rejects.toThrow('turn 1');
    const works = (): Promise<string> => Promise.resolve(`turn ${++turns}`);
    await expect(workedOutOnce(held, 'a', works)).resolves.toBe('turn 2');
    await expect(workedOutOnce(held, 'a', works)).resolves.toBe('turn 2');
  });

  it('are begun anew by who still waits when whoever began them has gone', async () => {
    const held = new LastUsed<Promise<string>>(2);
    const gone = new RequestError('JOB_CANCELLED', 'Nobody waited for this any more.');
    let turns = 0;
    const first = workedOutOnce(held, 'a', async () => {
      await Promise.resolve();
      throw gone;
    });
    const others = [1, 2].map(() =>
      workedOutOnce(held, 'a', () => Promise.resolve(`turn ${++turns}`)),
    );
    await expect(first).rejects.toBe(gone);
    expect(await Promise.all(others)).toEqual(['turn 1', 'turn 1']);
  });
});
