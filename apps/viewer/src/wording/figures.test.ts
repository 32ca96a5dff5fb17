import { afterEach, describe, expect, it } from 'vitest';
import { afterWords } from './care-words.js';
import { dayOf, happenedOn, span } from './figures.js';

it('a range whose ends read the same is one value', () => {
  expect(span('3', '8')).toBe('3 to 8');
  expect(span('100', '100')).toBe('100');
});

it('what a step waits for is quoted, so that no title runs into the sentence', () => {
  expect(afterWords(['Put the sire into the spawning tank'])).toBe(
    'after “Put the sire into the spawning tank”',
  );
  expect(afterWords(['a', 'b'])).toBe('after “a” and “b”');
});

describe('the day of something', () => {
  const zone = process.env['TZ'];
  afterEach(() => {
    if (zone === undefined) delete process.env['TZ'];
    else process.env['TZ'] = zone;
  });

  it.each([
    ['America/Los_Angeles', '2026-03-13'],
    ['Pacific/Auckland', '2026-03-14'],
  ])('is that of the wall where one stands: in %s', (here, day) => {
    process.env['TZ'] = here;
    expect(dayOf('2026-03-14T05:00:00.000Z')).toBe(day);
    expect(happenedOn({ at: '2026-03-14T05:00:00.000Z', dayOnly: false })).toBe(day);
  });

  it('is the one that was noted, where the hour stands for none', () => {
    process.env['TZ'] = 'America/Los_Angeles';
    expect(happenedOn({ at: '2026-03-14T00:00:00.000Z', dayOnly: true })).toBe('2026-03-14');
  });
});
