import { describe, expect, it } from 'vitest';
import { findLocus } from '../catalogue/catalogue.js';
import { HeredityError } from '../heredity-error.js';
import { dominanceOfLooks } from './dominance-of-looks.js';
import {
  defineLocus,
  restoreLocus,
  reviseLocus,
  twoAlleleLocus,
  withdrawLocus,
  type LocusDefinition,
} from './define-locus.js';

const code = (expected: string) => expect.objectContaining({ code: expected }) as Error;
const good: LocusDefinition = {
  id: 'spot',
  name: 'Spot',
  alleles: [
    { id: 'spot', symbol: 'S', name: 'spot' },
    { id: 'plain', symbol: 's', name: 'plain' },
  ],
  phenotypes: [
    { id: 'spotted', name: 'spotted' },
    { id: 'plain', name: 'plain' },
  ],
  expression: [
    { genotype: 'S/-', shows: [{ phenotype: 'spotted', probability: '1' }] },
    { genotype: 's/s', shows: [{ phenotype: 'plain', probability: '1' }] },
  ],
};
const problemsOf = (change: Partial<LocusDefinition>): readonly string[] => {
  try {
    defineLocus({ ...good, ...change });
    return [];
  } catch (error) {
    return error instanceof HeredityError
      ? (error.details['problems'] as readonly string[])
      : ['?'];
  }
};

describe('defineLocus', () => {
  it('refuses one of which no genotype lives', () => {
    expect(problemsOf({ viability: [{ genotype: '-/-', survival: '0', why: 'all die' }] })).toEqual(
      ['VIABILITY_INVALID'],
    );
    expect(problemsOf({ viability: [{ genotype: 'S/S', survival: '0', why: 'lethal' }] })).toEqual(
      [],
    );
  });
  it('accepts a sound locus as version 1', () => {
    expect(defineLocus(good)).toMatchObject({
      version: 1,
      origin: 'own',
      status: 'current',
      computable: true,
    });
  });
  it.each<[string, Partial<LocusDefinition>]>([
    ['ID_INVALID', { id: '1 x' }],
    ['NAME_EMPTY', { name: ' ' }],
    ['ALLELES_TOO_FEW', { alleles: good.alleles.slice(0, 1) }],
    ['ALLELE_REPEATED', { alleles: [good.alleles[0]!, { id: 'plain', symbol: 'S', name: 'x' }] }],
    ['SYMBOL_INVALID', { alleles: [good.alleles[0]!, { id: 'plain', symbol: 's/-', name: 'x' }] }],
    ['PHENOTYPE_REPEATED', { phenotypes: [...good.phenotypes, good.phenotypes[0]!] }],
    ['RULE_INVALID', { expression: [{ genotype: 'Q/-', shows: [] }, ...good.expression] }],
    ['RULE_UNKNOWN_PHENOTYPE', { phenotypes: good.phenotypes.slice(0, 1) }],
    [
      'RULE_PROBABILITIES',
      { expression: [{ genotype: '-/-', shows: [{ phenotype: 'plain', probability: '1/2' }] }] },
    ],
    ['RULE_NEVER_REACHED', { expression: [...good.expression, good.expression[0]!] }],
    ['GENOTYPE_WITHOUT_RULE', { expression: good.expression.slice(0, 1) }],
    ['VIABILITY_INVALID', { viability: [{ genotype: 's/s', survival: '2', why: 'x' }] }],
    ['NOTATION_INVALID', { notations: [{ id: 'n', name: 'n', symbols: { Z: 'zz' }, note: '' }] }],
  ])('%s', (expected, change) => {
    expect(problemsOf(change)).toContain(expected);
  });
  it('says once that an allele is given twice, by id and by symbol', () => {
    const twice = { id: 'Eg', symbol: 'Eg', name: 'x' };
    expect(problemsOf({ alleles: [twice, twice] })).toEqual(['ALLELE_REPEATED']);
  });
});

describe('dominanceOfLooks', () => {
  const shows = (phenotype: string, probability = '1') => ({ phenotype, probability });
  it('reads complete and incomplete dominance', () => {
    expect(dominanceOfLooks(defineLocus(good))).toBe('complete');
    const symbols = ['A', 'a'] as const;
    const three = ['dark', 'middling', 'light'] as const;
    expect(dominanceOfLooks(twoAlleleLocus({ id: 'a', name: 'a', symbols, looks: three }))).toBe(
      'incomplete',
    );
  });
  it('reads reduced penetrance as variable, and one look for all as unknown', () => {
    const half = [shows('spotted', '1/2'), shows('plain', '1/2')];
    const uneven = [{ genotype: 'S/-', shows: half }, good.expression[1]!];
    expect(dominanceOfLooks(defineLocus({ ...good, expression: uneven }))).toBe('variable');
    const same = [{ genotype: '-/-', shows: [shows('plain')] }];
    expect(dominanceOfLooks(defineLocus({ ...good, expression: same }))).toBe('unknown');
  });
  it.each(['dt', 'bl'])('agrees with what the catalogue says of %s', (id) => {
    const locus = findLocus(id);
    expect(dominanceOfLooks(locus)).toBe(locus.dominance);
  });
});

describe('versions of a locus', () => {
  const locus = defineLocus(good);
  it('counts up with every change and keeps the id', () => {
    const next = reviseLocus(locus, { name: 'Fin spot' });
    expect(next).toMatchObject({ id: 'spot', version: 2, name: 'Fin spot' });
    expect(locus.version).toBe(1);
  });
  it('keeps alleles that records use', () => {
    const other = twoAlleleLocus({
      id: 'spot',
      name: 'Spot',
      symbols: ['T', 't'],
      looks: ['x', 'y'],
    });
    const { alleles, phenotypes, expression } = other;
    expect(() =>
      reviseLocus(locus, { alleles, phenotypes, expression }, { alleles: ['spot'] }),
    ).toThrowError(code('LOCUS_ALLELE_IN_USE'));
    expect(reviseLocus(locus, { alleles, phenotypes, expression }).version).toBe(2);
  });
  it('withdraws and restores; a withdrawn one is not found', () => {
    const gone = withdrawLocus(locus);
    expect(() => findLocus(gone)).toThrowError(code('LOCUS_WITHDRAWN'));
    expect(() => reviseLocus(gone, {})).toThrowError(code('LOCUS_WITHDRAWN'));
    expect(findLocus(restoreLocus(gone)).version).toBe(3);
  });
  it('leaves the catalogue alone', () => {
    expect(() => reviseLocus(findLocus('bl'), { name: 'x' })).toThrowError(
      code('ARGUMENT_INVALID'),
    );
  });
});
