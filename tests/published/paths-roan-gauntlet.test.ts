import { coancestry, inbreedingCoefficients, inbreedingPathsOf } from '@linewright/kinship';
import { buildPedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';

// Wright S (1922) American Naturalist 56:330-338; worked as Examples 1 and 2 of chapter 7 in Lynch M & Walsh B (1998) Genetics
// and Analysis of Quantitative Traits, Sinauer. Basis: answers and path counts read in the source; the names of three
// connecting animals from memory, but fixed by the path counts.
const shorthorns = buildPedigree(
  [
    ['Grand Duke of Gloster', 'Champion of England', 'Duchess of Gloster 9th'],
    ['Mimulus', 'Champion of England', 'Mistletoe'],
    ['Royal Duke of Gloster', 'Grand Duke of Gloster', 'Mimulus'],
    ['Duchess of Gloster 9th', 'Lord Raglan', null],
    ['Mistletoe', 'Lord Raglan', null],
    ['The Czar', 'Lord Raglan', null],
    ['Carmine', 'The Czar', 'Cressida'],
    ['Princess Royal', 'Champion of England', 'Carmine'],
    ['Roan Gauntlet', 'Royal Duke of Gloster', 'Princess Royal'],
  ].map(([id, sire, dam]) => ({ id: id!, sire: sire!, dam: dam! })),
  { unlistedParents: 'add' },
);
const index = (id: string): number => shorthorns.indexOf(id);

describe("Wright's shorthorn bull Roan Gauntlet", () => {
  const result = inbreedingPathsOf(shorthorns, index('Roan Gauntlet'));

  it('has F = 9/64, printed 0.141', () => {
    expect(result.coefficient).toBe(9 / 64);
    expect(Math.abs(result.coefficient - 0.141)).toBeLessThanOrEqual(0.0005);
    expect(result.paths.reduce((sum, path) => sum + path.contribution, 0)).toBe(9 / 64);
    expect(inbreedingCoefficients(shorthorns)[index('Roan Gauntlet')]).toBe(9 / 64);
  });

  it('has two paths of four animals through Champion of England and two of seven through Lord Raglan', () => {
    const named = result.paths.map((path) => path.fish.map((i) => shorthorns.ids[i]));
    expect(result.pathCount).toBe(4);
    expect(result.paths.map((path) => path.fish.length)).toEqual([4, 4, 7, 7]);
    expect(result.paths.map((path) => path.contribution)).toEqual([
      1 / 16,
      1 / 16,
      1 / 128,
      1 / 128,
    ]);
    expect(named.map((path) => path.join(' < ')).sort()).toEqual(
      [
        'Royal Duke of Gloster < Grand Duke of Gloster < Champion of England < Princess Royal',
        'Royal Duke of Gloster < Mimulus < Champion of England < Princess Royal',
        'Royal Duke of Gloster < Grand Duke of Gloster < Duchess of Gloster 9th < Lord Raglan < The Czar < Carmine < Princess Royal',
        'Royal Duke of Gloster < Mimulus < Mistletoe < Lord Raglan < The Czar < Carmine < Princess Royal',
      ].sort(),
    );
    expect(
      result.ancestors.map((entry) => [shorthorns.ids[entry.ancestor], entry.contribution]),
    ).toEqual([
      ['Champion of England', 1 / 8],
      ['Lord Raglan', 1 / 64],
    ]);
  });

  it('has the coancestries printed beside it', () => {
    expect(coancestry(shorthorns, index('Mimulus'), index('Carmine'))).toBe(1 / 32);
    expect(
      coancestry(shorthorns, index('Grand Duke of Gloster'), index('Champion of England')),
    ).toBe(1 / 4);
  });
});
