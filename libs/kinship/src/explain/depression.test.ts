import { describe, expect, it } from 'vitest';
import { inbreedingBand, inbreedingBands, measuredEffects } from './depression.js';

describe('measured effects', () => {
  // Kincaid HL (1976) Trans Am Fish Soc 105:273-280. Basis: read in the abstract.
  it('carries the figures of the 1976 abstract for one and two generations of full-sib mating', () => {
    const at = (inbreeding: number, trait: string) =>
      measuredEffects.find((e) => e.inbreeding === inbreeding && e.trait === trait)?.changePercent;
    expect([0.25, 0.375].map((f) => at(f, 'crippled fry'))).toEqual([37.6, 191.5]);
    expect([0.25, 0.375].map((f) => at(f, 'fry survival to 147 days'))).toEqual([-14.6, -29.7]);
    expect([0.25, 0.375].map((f) => at(f, 'growth to 364 days'))).toEqual([-23.2, -33.5]);
    expect([0.25, 0.375].map((f) => at(f, 'weight of fish left at 1 year'))).toEqual([
      -36.6, -65.4,
    ]);
  });

  it('has a source and a basis for each, a range the right way round, and no betta among the species', () => {
    for (const { source, basis, changePercent, species } of measuredEffects) {
      expect(source).toMatch(/\(\d{4}\)/);
      expect(basis).toBe('read in the abstract');
      expect(species).not.toMatch(/betta/i);
      if (changePercent !== null && typeof changePercent !== 'number')
        expect(changePercent[0]).toBeLessThan(changePercent[1]);
    }
  });
});

describe('inbreedingBand', () => {
  it.each([
    [0, 'none on record'],
    [1e-6, 'distant'],
    [1 / 16, 'cousins'],
    [1 / 8 - 1e-6, 'cousins'],
    [1 / 8, 'half sibs'],
    [1 / 4 - 1e-15, 'full sibs'],
    [1 / 4, 'full sibs'],
    [3 / 8, 'two generations of full sibs'],
    [1, 'two generations of full sibs'],
  ])('puts F = %f into "%s"', (inbreeding, name) => {
    expect(inbreedingBand(inbreeding).name).toBe(name);
  });

  it('has ascending bands', () => {
    const borders = inbreedingBands.map((band) => band.from);
    expect(borders).toEqual([...borders].sort((a, b) => a - b));
  });
});
