import { describe, expect, it } from 'vitest';
import { formatFraction } from '../fraction.js';
import { twoAlleleLocus } from '../own-loci/define-locus.js';
import { expectPhenotypes } from './expect-phenotypes.js';
import type { PairMember } from './pair-member.js';
import { pairWarnings } from './pair-warnings.js';

const fish = (
  genotypes: PairMember['genotypes'],
  ...traits: NonNullable<PairMember['traits']>
): PairMember => ({ genotypes, traits });
const codes = (sire: PairMember, dam: PairMember) => pairWarnings(sire, dam).map((one) => one.code);

describe('pairWarnings', () => {
  it('stops a melano dam, by genotype or by look, and not a melano sire', () => {
    expect(pairWarnings(fish({}), fish({ m: 'm/m' }))[0]).toMatchObject({
      code: 'MELANO_DAM_EGGS_DO_NOT_HATCH',
      severity: 'stop',
      confidence: 'practice',
      basis: 'common practice, no source',
    });
    expect(codes(fish({}), fish({}, 'melano'))).toEqual(['MELANO_DAM_EGGS_DO_NOT_HATCH']);
    expect(codes(fish({ m: 'm/m' }), fish({ m: 'M/m' }))).toEqual(['MELANO_DAUGHTERS']);
    expect(codes(fish({ m: 'm/m' }), fish({ m: 'M/M' }))).toEqual([]);
    expect(codes(fish({}), fish({ m: 'm/-' }))).toContain('MELANO_DAM_POSSIBLE');
    const impossible = { genotype: 'm/m', probability: { numerator: 0n, denominator: 1n } };
    const certain = { genotype: 'M/m', probability: 1 };
    expect(codes(fish({}), fish({ m: [impossible, certain] }))).toEqual([]);
  });
  it.each<[string, PairMember, PairMember, string[]]>([
    ['two double tails', fish({ dt: 'dt/dt' }), fish({}, 'double-tail'), ['DOUBLE_TAIL_PAIR']],
    ['one double tail', fish({ dt: 'dt/dt' }), fish({ dt: 'Dt/Dt' }), ['DOUBLE_TAIL_CARRIERS']],
    ['two rosetails', fish({}, 'rosetail'), fish({}, 'rosetail'), ['ROSETAIL_PAIR']],
    ['one rosetail', fish({}, 'rosetail'), fish({}), ['ROSETAIL_PARENT']],
    ['marble', fish({ mb: 'Mb/mb' }), fish({}), ['MARBLE_UNPREDICTABLE']],
    ['opaque', fish({ op: 'Op/op' }), fish({}), ['OPAQUE_EYES']],
    ['metallic', fish({}), fish({ mt: 'Mt/-' }), ['METALLIC_EYES']],
    ['albino', fish({}, 'albino'), fish({}), ['ALBINO_SIGHT']],
    ['albino carriers', fish({ al: 'Al/al' }), fish({ al: 'Al/al' }), ['ALBINO_SIGHT']],
    ['one albino carrier', fish({ al: 'Al/al' }), fish({ al: 'Al/Al' }), []],
    ['dumbo', fish({}, 'dumbo'), fish({}), ['DUMBO_SWIMMING']],
    ['giant', fish({}, 'giant'), fish({}), ['GIANT_SPACE']],
    ['crowntail', fish({ ct: 'Ct/Ct' }), fish({}), ['CROWNTAIL_RAYS']],
    ['red loss', fish({}, 'red-loss'), fish({}), ['RED_LOSS_RESCORE']],
    ['butterfly', fish({}), fish({ vf: 'Vf/vf' }), ['BUTTERFLY_EXTENT']],
    ['nothing known', fish({}), fish({}), []],
    ['sex', fish({ sx: 'X/Y' }), fish({ sx: 'X/X' }), []],
  ])('%s', (_, sire, dam, expected) => {
    expect(codes(sire, dam)).toEqual(expected);
  });
  it('grows more serious when both parents have it, and puts the most serious first', () => {
    const both = pairWarnings(fish({ op: 'Op/op', m: 'm/m' }), fish({ op: 'Op/Op', m: 'm/m' }));
    expect(both.map((one) => one.severity)).toEqual(['stop', 'caution']);
    expect(both[1]?.text).toContain('Both parents');
  });
  it('refuses genotypes that cannot be read', () => {
    expect(() => pairWarnings(fish({ m: 'x/x' }), fish({}))).toThrowError(
      expect.objectContaining({ code: 'ALLELE_UNKNOWN' }) as Error,
    );
  });
});

describe('expectPhenotypes', () => {
  it('computes what is known on both sides and names the rest', () => {
    const pair = expectPhenotypes(
      { c: 'C/c', dt: 'Dt/dt', m: 'm/m', mb: 'Mb/mb' },
      { c: 'c/c', dt: 'Dt/-', bl: 'Bl/bl' },
    );
    expect(pair.computed).toEqual(['c']);
    expect(pair.expectation?.classes.map((one) => formatFraction(one.probability))).toEqual([
      '1/2',
      '1/2',
    ]);
    expect(Object.fromEntries(pair.notComputed.map((one) => [one.locus, one.reason]))).toEqual({
      bl: 'unknown-in-sire',
      m: 'unknown-in-dam',
      mb: 'not-computable',
      dt: 'partly-known',
    });
  });
  it('has no expectation when nothing is known', () => {
    expect(expectPhenotypes({}, {})).toEqual({ expectation: null, computed: [], notComputed: [] });
  });
  it('takes a person\u2019s own loci', () => {
    const own = twoAlleleLocus({
      id: 'spot',
      name: 'Spot',
      symbols: ['S', 's'],
      looks: ['spot', 'plain'],
    });
    expect(expectPhenotypes({ spot: 'S/s' }, { spot: 's/s' }, { loci: [own] }).computed).toEqual([
      'spot',
    ]);
    expect(() => expectPhenotypes({ spot: 'S/s' }, { spot: 's/s' })).toThrowError(
      expect.objectContaining({ code: 'LOCUS_UNKNOWN' }) as Error,
    );
  });
});
