import { describe, expect, it } from 'vitest';
import { oneByOne } from './one-by-one.js';

describe('an operation asked for several times in one request', () => {
  it('is worked out one after the other, with a turn of the loop between', async () => {
    const context = {};
    const said: string[] = [];
    const answers = ['a', 'b', 'c'].map((name) =>
      oneByOne(context, 'fit', () => {
        said.push(name);
        setImmediate(() => said.push(`turn after ${name}`));
        return name;
      }),
    );
    // The first is not put off.
    expect(said).toEqual(['a']);
    expect(await Promise.all(answers)).toEqual(['a', 'b', 'c']);
    await new Promise((resolve) => setImmediate(resolve));
    expect(said).toEqual(['a', 'turn after a', 'b', 'turn after b', 'c', 'turn after c']);
  });

  it('goes on after one that fails, which fails alone', async () => {
    const context = {};
    const fails = (): never => {
      throw new Error('refused');
    };
    const first = oneByOne(context, 'fit', () => Promise.reject(new Error('late')));
    const second = oneByOne(context, 'fit', fails);
    const third = oneByOne(context, 'fit', () => 3);
    await expect(first).rejects.toThrow('late');
    await expect(second).rejects.toThrow('refused');
    expect(await third).toBe(3);
  });

  it('waits for nothing of another operation, nor of another request', () => {
    const said: string[] = [];
    const never = new Promise(() => undefined);
    void oneByOne(said, 'fit', () => never);
    expect(oneByOne(said, 'cross', () => 'at once')).toBe('at once');
    expect(oneByOne({}, 'fit', () => 'at once')).toBe('at once');
  });
});
