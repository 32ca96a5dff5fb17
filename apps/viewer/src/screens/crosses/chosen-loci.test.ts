import { describe, expect, it } from 'vitest';
import type { KnownLocus } from '../../api/crosses.js';
import { squareOf, startAt } from './chosen-loci.js';

const blue = {
  id: 'bl',
  phenotypes: [
    { genotype: 'Bl/Bl', phenotype: 'steel' },
    { genotype: 'Bl/bl', phenotype: 'royal' },
    { genotype: 'bl/bl', phenotype: 'turquoise' },
  ],
} as KnownLocus;

describe('cross by genotype', () => {
  it('starts with one of each allele on both sides', () => {
    expect(startAt(blue)).toEqual({ locusId: 'bl', sire: 'Bl/bl', dam: 'Bl/bl' });
  });

  it('draws 1 : 2 : 1 for two heterozygotes', () => {
    const square = squareOf(blue, startAt(blue));
    expect(square?.cells.flat().map((cell) => cell.classId)).toEqual([
      'steel',
      'royal',
      'royal',
      'turquoise',
    ]);
    expect(square?.classes.map(({ label, fraction }) => `${label} ${fraction}`)).toEqual([
      'steel 1/4',
      'royal 1/2',
      'turquoise 1/4',
    ]);
  });

  it('draws one column for a parent that breeds true', () => {
    const square = squareOf(blue, { locusId: 'bl', sire: 'bl/bl', dam: 'Bl/bl' });
    expect(square?.sire).toEqual([{ label: 'bl', fraction: '1' }]);
    expect(square?.classes.map((each) => each.fraction)).toEqual(['1/2', '1/2']);
  });

  it('draws nothing when a meeting is not in the catalogue', () => {
    expect(squareOf(blue, { locusId: 'bl', sire: 'Bl/x', dam: 'bl/bl' })).toBeNull();
  });
});
