import { describe, expect, it } from 'vitest';
import { catalogue, findLocus } from './catalogue/catalogue.js';
import { sources } from './catalogue/sources.js';
import {
  allGenotypes,
  formatGenotype,
  parseGenotype,
  parsePartialGenotype,
  readGenotype,
} from './genotype.js';
import { findLocusProblems } from './own-loci/locus-problems.js';
import { genotypesShowing, phenotypesOf } from './phenotypes.js';

const code = (expected: string) => expect.objectContaining({ code: expected }) as Error;

describe('genotypes as text', () => {
  it('reads symbols and meanings, and writes them in the order of the locus', () => {
    expect(parseGenotype('bl', 'bl/Bl')).toEqual(['steel', 'turquoise']);
    expect(parseGenotype('bl', 'steel/turquoise')).toEqual(['steel', 'turquoise']);
    expect(formatGenotype('bl', ['steel', 'turquoise'])).toBe('Bl/bl');
  });
  it('reads exchanged capitals when told so', () => {
    expect(parseGenotype('bl', 'Bl/Bl', 'reversed')).toEqual(['steel', 'steel']);
  });
  it('lists what a partly known genotype may be', () => {
    expect(parsePartialGenotype('c', 'C/-').map((g) => formatGenotype('c', g))).toEqual([
      'C/C',
      'C/c',
    ]);
    expect(parsePartialGenotype('c', '-/-')).toHaveLength(3);
    expect(parsePartialGenotype('c', 'c/c')).toEqual([['cambodian', 'cambodian']]);
  });
  it.each([
    ['bl', 'Bl/xx', 'ALLELE_UNKNOWN'],
    ['bl', 'BL/bl', 'ALLELE_UNKNOWN'],
    ['bl', 'toString/Bl', 'ALLELE_UNKNOWN'],
    ['bl', 'Bl', 'GENOTYPE_INVALID'],
    ['bl', 'Bl/bl/bl', 'GENOTYPE_INVALID'],
    ['bl', '/bl', 'GENOTYPE_INVALID'],
    ['c', 'C/-', 'GENOTYPE_INCOMPLETE'],
    ['nothing', 'A/a', 'LOCUS_UNKNOWN'],
  ])('%s: refuses %s with %s', (locus, text, expected) => {
    expect(() => parseGenotype(locus, text)).toThrowError(code(expected));
  });
  it('wants probabilities that sum to 1, forgiving rounding only', () => {
    const third = 1 / 3;
    const read = readGenotype('c', [
      { genotype: 'C/C', probability: third },
      { genotype: 'C/c', probability: 1 - third },
    ]);
    expect(read).toHaveLength(2);
    expect(() => readGenotype('c', [{ genotype: 'C/C', probability: 0.9 }])).toThrowError(
      code('PROBABILITIES_NOT_ONE'),
    );
    expect(() => readGenotype('c', [{ genotype: 'C/C', probability: 50 }])).toThrowError(
      code('PROBABILITY_OUT_OF_RANGE'),
    );
  });
});

describe('the catalogue', () => {
  it('holds each locus once', () => {
    expect(new Set(catalogue.map((one) => one.id)).size).toBe(catalogue.length);
    expect(catalogue.length).toBe(24);
  });
  it.each(catalogue.filter((one) => one.computable).map((one) => [one.id, one] as const))(
    '%s can be computed with: every genotype has its look',
    (_, locus) => {
      expect(findLocusProblems(locus)).toEqual([]);
      expect(allGenotypes(locus).every((g) => phenotypesOf(locus, g).length > 0)).toBe(true);
    },
  );
  it.each(catalogue.filter((one) => !one.computable).map((one) => [one.id, one] as const))(
    '%s is not computed and says why',
    (_, locus) => {
      expect(locus.whyNot?.length).toBeGreaterThan(20);
      expect(locus.testable).toBe(false);
    },
  );
  it('computes nothing that is disputed', () => {
    expect(catalogue.filter((one) => one.confidence === 'disputed' && one.computable)).toEqual([]);
  });
  it('cites only sources that are listed, and gates only by loci that exist', () => {
    const known = new Set(sources.map((one) => one.id));
    for (const locus of catalogue) {
      expect(locus.sources.filter((id) => !known.has(id))).toEqual([]);
      for (const gate of locus.hiddenBy) {
        const by = findLocus(gate.locus);
        expect(gate.phenotypes.every((id) => by.phenotypes.some((one) => one.id === id))).toBe(
          true,
        );
      }
    }
  });
  it('tells which genotypes can show a look', () => {
    expect(genotypesShowing('dt', 'single').map((g) => formatGenotype('dt', g))).toEqual([
      'Dt/Dt',
      'Dt/dt',
    ]);
    expect(() => genotypesShowing('dt', 'triple')).toThrowError(code('PHENOTYPE_UNKNOWN'));
  });
});
