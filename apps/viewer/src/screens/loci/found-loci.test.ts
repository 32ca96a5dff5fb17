import { describe, expect, it } from 'vitest';
import type { KnownLocus } from '../../api/crosses.js';
import { foundLoci } from './found-loci.js';

const locus = (id: string, name: string, confidence: string, look: string) =>
  ({
    ...{ id, name, confidence },
    alleles: [{ id: 'a', symbol: id.toUpperCase(), name: `${name} allele` }],
    phenotypes: [{ genotype: 'x', phenotype: look }],
  }) as unknown as KnownLocus;

const loci = [
  locus('dt', 'Double tail', 'HIGH', 'double-tailed'),
  locus('bl', 'Blue', 'LOW', 'steel'),
];
const idsOf = (text: string, confidence = '') =>
  foundLoci(loci, { text, confidence }).map(({ id }) => id);

describe('loci that are looked for', () => {
  it('are all there while nothing is asked', () => {
    expect(idsOf(' ')).toEqual(['dt', 'bl']);
  });

  it('are found by name, symbol, allele or appearance, in any case', () => {
    expect(idsOf('DOUBLE')).toEqual(['dt']);
    expect(idsOf(' Steel ')).toEqual(['bl']);
    expect(idsOf('blue allele')).toEqual(['bl']);
    expect(idsOf('dT')).toEqual(['dt']);
    expect(idsOf('orange')).toEqual([]);
  });

  it('are of the confidence asked for', () => {
    expect(idsOf('', 'LOW')).toEqual(['bl']);
    expect(idsOf('double', 'LOW')).toEqual([]);
  });
});
