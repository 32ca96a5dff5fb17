import { describe, expect, it } from 'vitest';
import { nearest } from './near.js';

describe('what a tag was meant to be', () => {
  const near = nearest(['R-01', 'R-02', 'R-11', 'BLUE', 'Dragon-7', 'A1-1', 'Emerald Queen']);

  it.each([
    ['R-O1', ['R-01']],
    ['R-1', ['R-01']],
    ['R01', ['R-01']],
    ['r_02', ['R-02']],
    ['R-l1', ['R-11']],
    ['BLEU', ['BLUE']],
    ['BLU', ['BLUE']],
    ['Dargon-7', ['Dragon-7']],
    ['Emerld Quen', ['Emerald Queen']],
  ])('%s', (text, meant) => expect(near(text)).toEqual(meant));

  it.each(['R-03', 'R-12', 'Dragon-8', 'A11', 'GREEN', '', 'X', 'R-01'])(
    '%s is offered nothing: numbers tell fish apart',
    (text) => expect(near(text)).toEqual([]),
  );

  it('offers three at most, and is quick in a large stock', () => {
    expect(nearest(['R 01', 'R-1', 'R.001', 'R_0001'])('R1')).toHaveLength(3);
    const many = nearest(Array.from({ length: 50_000 }, (_, k) => `Fish-${k}`));
    const before = performance.now();
    for (let k = 0; k < 5_000; k++) many(`Fihs-${k}`);
    expect(many('Fihs-77')).toEqual(['Fish-77']);
    expect(performance.now() - before).toBeLessThan(3_000);
  });
});
