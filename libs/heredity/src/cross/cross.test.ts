import { describe, expect, it } from 'vitest';
import { formatFraction, fractionToNumber, ratioText, sumFractions } from '../fraction.js';
import { defineLocus, twoAlleleLocus, withdrawLocus } from '../own-loci/define-locus.js';
import { crossGenotypes } from './cross-genotypes.js';
import type { CrossExpectation } from './cross-types.js';
import { cross } from './cross.js';
import { expectedCounts } from './expected-counts.js';
import { matingSeries } from './mating-series.js';
import { certainPairs, crossMixture } from './mixture.js';

const code = (expected: string) => expect.objectContaining({ code: expected }) as Error;
const shares = (of: Pick<CrossExpectation, 'classes'>) =>
  Object.fromEntries(of.classes.map((one) => [one.label, formatFraction(one.probability)]));

const a = twoAlleleLocus({ id: 'a', name: 'A', symbols: ['A', 'a'], looks: ['A', 'a'] });
const b = twoAlleleLocus({ id: 'b', name: 'B', symbols: ['B', 'b'], looks: ['B', 'b'] });
const double = { a: 'A/a', b: 'B/b' };

describe('linked loci', () => {
  it('a test cross gives the recombination fraction itself, by phase', () => {
    const linkage = [{ loci: ['a', 'b'] as const, recombination: '1/10' }];
    const tester = { a: 'a/a', b: 'b/b' };
    expect(shares(cross({ sire: double, dam: tester }, [a, b], { linkage }))).toEqual({
      'A, B': '9/20',
      'a, b': '9/20',
      'A, b': '1/20',
      'a, B': '1/20',
    });
    const repulsion = { a: 'A/a', b: 'b/B' };
    expect(shares(cross({ sire: repulsion, dam: tester }, [a, b], { linkage }))['A, B']).toBe(
      '1/20',
    );
    const unknown = cross({ sire: double, dam: tester }, [a, b], {
      linkage,
      phase: { sire: 'unknown' },
    });
    expect(shares(unknown)).toEqual({ 'A, B': '1/4', 'a, b': '1/4', 'A, b': '1/4', 'a, B': '1/4' });
  });
  it('takes a fraction for each sex: none in males as in Drosophila gives 3:1-like linkage', () => {
    const linkage = [{ loci: ['a', 'b'] as const, recombination: { sire: 0, dam: '1/2' } }];
    expect(
      ratioText(
        cross({ sire: double, dam: double }, [a, b], { linkage }).classes.map((c) => c.probability),
      ),
    ).toBe('5:1:1:1');
  });
  it('at one half is the same as unlinked', () => {
    const linkage = [{ loci: ['a', 'b'] as const, recombination: '1/2' }];
    expect(shares(cross({ sire: double, dam: double }, [a, b], { linkage }))).toEqual(
      shares(cross({ sire: double, dam: double }, [a, b])),
    );
  });
  it('refuses fractions over one half, rings and forks', () => {
    const ask = (...pairs: [string, string, string][]) =>
      cross({ sire: { ...double, c: 'C/c' }, dam: { ...double, c: 'C/c' } }, [a, b, 'c'], {
        linkage: pairs.map(([x, y, recombination]) => ({ loci: [x, y], recombination })),
      });
    expect(() => ask(['a', 'b', '0.6'])).toThrowError(code('RECOMBINATION_OUT_OF_RANGE'));
    expect(() => ask(['a', 'b', '-1/4'])).toThrowError(code('RECOMBINATION_OUT_OF_RANGE'));
    expect(() => ask(['a', 'b', '1/4'], ['b', 'c', '1/4'], ['c', 'a', '1/4'])).toThrowError(
      code('ARGUMENT_INVALID'),
    );
    expect(() => ask(['a', 'z', '1/4'])).toThrowError(code('ARGUMENT_INVALID'));
  });
});

describe('lethal and weak classes', () => {
  const yellow = defineLocus({
    id: 'y',
    name: 'Lethal yellow',
    alleles: [
      { id: 'Y', symbol: 'Y', name: 'yellow' },
      { id: 'y', symbol: 'y', name: 'plain' },
    ],
    phenotypes: [
      { id: 'yellow', name: 'yellow' },
      { id: 'plain', name: 'plain' },
    ],
    expression: [
      { genotype: 'Y/-', shows: [{ phenotype: 'yellow', probability: '1' }] },
      { genotype: '-/-', shows: [{ phenotype: 'plain', probability: '1' }] },
    ],
    viability: [{ genotype: 'Y/Y', survival: '0', why: 'two doses are lethal' }],
  });
  it('gives 2:1 and a loss of one quarter', () => {
    const brood = cross({ sire: { y: 'Y/y' }, dam: { y: 'Y/y' } }, [yellow]);
    expect(shares(brood)).toEqual({ yellow: '2/3', plain: '1/3' });
    expect(formatFraction(brood.loss)).toBe('1/4');
    expect(brood.lossReasons).toEqual(['two doses are lethal']);
    expect(
      brood.perLocus[0]?.genotypes.map((one) => [one.text, formatFraction(one.probability)]),
    ).toEqual([
      ['Y/y', '2/3'],
      ['y/y', '1/3'],
    ]);
  });
  it('over two loci by a rule of the cross, other loci unaffected', () => {
    const brood = cross(
      { sire: { ...double, c: 'C/c' }, dam: { ...double, c: 'C/c' } },
      [a, b, 'c'],
      {
        viability: [{ when: { a: 'a/a', b: 'b/b' }, survival: '1/2', why: 'weak' }],
      },
    );
    expect(formatFraction(brood.loss)).toBe('1/32');
    const ab = brood.classes.filter((one) => one.label.startsWith('a, b'));
    expect(formatFraction(sumFractions(ab.map((one) => one.probability)))).toBe('1/31');
  });
  it('says so when none survive', () => {
    expect(() => cross({ sire: { y: 'Y/Y' }, dam: { y: 'Y/Y' } }, [yellow])).toThrowError(
      code('NO_SURVIVORS'),
    );
  });
});

describe('penetrance', () => {
  const part = defineLocus({
    id: 'p',
    name: 'Partial',
    alleles: a.alleles,
    phenotypes: [
      { id: 'marked', name: 'marked' },
      { id: 'plain', name: 'plain' },
    ],
    expression: [
      {
        genotype: 'a/a',
        shows: [
          { phenotype: 'marked', probability: '4/5' },
          { phenotype: 'plain', probability: '1/5' },
        ],
      },
      { genotype: '-/-', shows: [{ phenotype: 'plain', probability: '1' }] },
    ],
  });
  it('thins the recessive class', () => {
    expect(shares(cross({ sire: { p: 'A/a' }, dam: { p: 'A/a' } }, [part]))).toEqual({
      plain: '4/5',
      marked: '1/5',
    });
  });
  it('works in a table of rules, and refuses one that does not sum to 1', () => {
    const ask = (probability: string) =>
      cross({ sire: double, dam: double }, [a, b], {
        interactions: [
          {
            name: 'mark',
            loci: ['a', 'b'],
            rules: [
              {
                when: { a: 'a/a', b: 'b/b' },
                shows: [
                  { phenotype: 'marked', probability },
                  { phenotype: 'plain', probability: '1/2' },
                ],
              },
            ],
            otherwise: 'plain',
          },
        ],
      });
    expect(shares(ask('1/2'))['marked']).toBe('1/32');
    expect(() => ask('1/3')).toThrowError(code('PROBABILITIES_NOT_ONE'));
  });
});

describe('loci that hide others', () => {
  it('cambodian hides blond; albino hides both', () => {
    const het = { c: 'C/c', b: 'B/b' };
    expect(
      ratioText(cross({ sire: het, dam: het }, ['c', 'b']).classes.map((one) => one.probability)),
    ).toBe('9:4:3');
    const three = { ...het, al: 'Al/al' };
    const brood = cross({ sire: three, dam: three }, ['al', 'c', 'b']);
    const albino = brood.classes.filter((one) => one.parts[0]?.phenotype === 'albino');
    expect(albino).toHaveLength(1);
    expect(albino[0]?.parts.map((part) => part.name)).toContain('cambodian not visible');
    expect(formatFraction(albino[0]!.probability)).toBe('1/4');
  });
  it('says what it takes for granted when the hiding locus is not in the cross', () => {
    expect(cross({ sire: { bl: 'Bl/bl' }, dam: { bl: 'Bl/bl' } }, ['bl']).notes.join()).toContain(
      'not hidden by spread iridescence, which',
    );
  });
});

describe('uncertain parents', () => {
  const maybe = [
    { genotype: 'A/A', probability: '1/3' },
    { genotype: 'A/a', probability: '2/3' },
  ];
  it('are averaged over, and equal the mixture of what they may be', () => {
    const parents = { sire: { a: maybe }, dam: { a: 'a/a' } };
    const brood = cross(parents, [a]);
    expect(shares(brood)).toEqual({ A: '2/3', a: '1/3' });
    expect(brood.notes.join()).toContain('uncertain');
    const mixture = crossMixture(certainPairs(parents, [a]), [a]);
    expect(shares(mixture)).toEqual(shares(brood));
    expect(mixture.components).toHaveLength(2);
  });
  it('weights must sum to 1', () => {
    expect(() =>
      crossMixture([{ weight: '1/2', sire: { a: 'A/a' }, dam: { a: 'A/a' } }], [a]),
    ).toThrowError(code('PROBABILITIES_NOT_ONE'));
  });
});

describe('many alleles', () => {
  const series = defineLocus({
    id: 's',
    name: 'Series',
    alleles: ['S1', 'S2', 'S3', 'S4'].map((id) => ({ id, symbol: id, name: id })),
    phenotypes: ['one', 'two', 'three', 'four'].map((id) => ({ id, name: id })),
    expression: [
      ['S1/-', 'one'],
      ['S2/-', 'two'],
      ['S3/-', 'three'],
      ['S4/S4', 'four'],
    ].map(([genotype = '', phenotype = '']) => ({
      genotype,
      shows: [{ phenotype, probability: '1' }],
    })),
  });
  it('four alleles in the parents give four genotypes, 1:1:1:1', () => {
    const brood = crossGenotypes({ sire: { s: 'S1/S2' }, dam: { s: 'S3/S4' } }, [series]);
    expect(brood.classes.map((one) => [one.label, formatFraction(one.probability)])).toEqual([
      ['S1/S3', '1/4'],
      ['S1/S4', '1/4'],
      ['S2/S3', '1/4'],
      ['S2/S4', '1/4'],
    ]);
    expect(shares(cross({ sire: { s: 'S1/S4' }, dam: { s: 'S2/S4' } }, [series]))).toEqual({
      one: '1/2',
      two: '1/4',
      four: '1/4',
    });
  });
});

describe('series of matings', () => {
  const rows = (scheme: Parameters<typeof matingSeries>[0]['scheme'], start: string) =>
    matingSeries({ locus: a, start, scheme, generations: 3 }).map((row) =>
      row.map((one) => formatFraction(one.probability)),
    );
  it('selfing halves the heterozygotes: 1/2, 1/4, 1/8', () => {
    expect(rows('selfing', 'A/a')).toEqual([['0', '1', '0'], ['1/4', '1/2', '1/4'], ['3/8', '1/4', '3/8'], ['7/16', '1/8', '7/16']]); // prettier-ignore
  });
  it('where one genotype dies, the survivors go on: 2/3, then 4/9', () => {
    const lethal = { ...a, viability: [{ genotype: 'A/A', survival: '0', why: 'lethal' }] };
    const series = matingSeries({ locus: lethal, start: 'A/a', scheme: 'selfing', generations: 2 });
    expect(series.map((row) => row.map((one) => formatFraction(one.probability)))).toEqual([['0', '1', '0'], ['0', '2/3', '1/3'], ['0', '4/9', '5/9']]); // prettier-ignore
  });
  it('backcrossing to the recessive halves the rest', () => {
    expect(rows({ backcrossTo: 'a/a' }, 'A/A')).toEqual([['1', '0', '0'], ['0', '1', '0'], ['0', '1/2', '1/2'], ['0', '1/4', '3/4']]); // prettier-ignore
  });
});

describe('bad input', () => {
  it.each<[string, () => unknown]>([
    ['GENOTYPE_MISSING', () => cross({ sire: { a: 'A/a' }, dam: {} }, [a])],
    ['LOCUS_UNKNOWN', () => cross({ sire: {}, dam: {} }, ['zz'])],
    ['LOCUS_WITHDRAWN', () => cross({ sire: { a: 'A/a' }, dam: { a: 'A/a' } }, [withdrawLocus(a)])],
    ['LOCUS_NOT_COMPUTABLE', () => cross({ sire: { ct: 'Ct/ct' }, dam: { ct: 'Ct/ct' } }, ['ct'])],
    ['ARGUMENT_INVALID', () => cross({ sire: {}, dam: {} }, [])],
    ['ARGUMENT_INVALID', () => cross({ sire: double, dam: double }, [a, a])],
    ['ALLELE_UNKNOWN', () => cross({ sire: { a: 'A/q' }, dam: { a: 'A/a' } }, [a])],
    [
      'PHENOTYPE_UNDEFINED',
      () =>
        cross({ sire: double, dam: double }, [a, b], {
          interactions: [{ name: 'x', loci: ['a', 'b'], rules: [] }],
        }),
    ],
    [
      'ARGUMENT_INVALID',
      () =>
        cross({ sire: double, dam: double }, [a], {
          interactions: [{ name: 'x', loci: ['a', 'b'], otherwise: 'y' }],
        }),
    ],
    ['COUNT_NOT_WHOLE', () => expectedCounts({ classes: [] }, 2.5)],
    ['COUNT_NEGATIVE', () => expectedCounts({ classes: [] }, -1)],
  ])('%s', (expected, ask) => {
    expect(ask).toThrowError(code(expected));
  });
  it('expected counts add up to the brood', () => {
    const counts = expectedCounts(cross({ sire: double, dam: double }, [a, b]), 80);
    expect(counts.map((one) => one.count)).toEqual([45, 15, 15, 5]);
    expect(fractionToNumber(sumFractions(counts.map((one) => one.probability)))).toBe(1);
  });
});
