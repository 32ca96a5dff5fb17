/**
 * Mendelian expectations against published and standard ratios.
 *
 * Modified dihybrid ratios: standard, e.g. Tave D (1986) Genetics for Fish Hatchery Managers, ch. 3 (from memory, confirmed
 * by independent computation). Crosses of *Betta splendens*: expectations computed from the loci, no counts (no primary
 * segregation table could be read; none is made up). Cystic fibrosis case: Mercer University, answers (read in the source).
 */
import {
  chanceOfAtLeast,
  cross,
  crossGenotypes,
  expectPhenotypes,
  formatFraction,
  ONE,
  parseGenotype,
  ratioText,
  subtractFractions,
  twoAlleleLocus,
  type Interaction,
} from '@linewright/heredity';
import { describe, expect, it } from 'vitest';

const a = twoAlleleLocus({ id: 'a', name: 'A', symbols: ['A', 'a'], looks: ['A-', 'aa'] });
const b = twoAlleleLocus({ id: 'b', name: 'B', symbols: ['B', 'b'], looks: ['B-', 'bb'] });
const a3 = twoAlleleLocus({ id: 'a', name: 'A', symbols: ['A', 'a'], looks: ['AA', 'Aa', 'aa'] });
const b3 = twoAlleleLocus({ id: 'b', name: 'B', symbols: ['B', 'b'], looks: ['BB', 'Bb', 'bb'] });
const both = { a: 'A/a', b: 'B/b' };

type Rules = readonly (readonly [string, string, string])[];
const table = (rules: Rules): Interaction => ({
  name: 'colour',
  loci: ['a', 'b'],
  rules: rules.map(([ofA, ofB, shows]) => ({ when: { a: ofA, b: ofB }, shows })),
});

const ratio = (interaction?: Interaction, loci = [a, b]) =>
  ratioText(
    cross(
      { sire: both, dam: both },
      loci,
      interaction ? { interactions: [interaction] } : {},
    ).classes.map((one) => one.probability),
  );

describe('AaBb x AaBb, sorted from the most frequent', () => {
  const dominance: [string, string, Rules][] = [
    ['recessive epistasis', '9:4:3', [['A/-', 'B/-', 'black'], ['-/-', 'b/b', 'white'], ['a/a', '-/-', 'brown']]],
    ['dominant epistasis', '12:3:1', [['A/-', '-/-', 'white'], ['-/-', 'B/-', 'yellow'], ['-/-', '-/-', 'green']]],
    ['duplicate recessive (complementary)', '9:7', [['A/-', 'B/-', 'purple'], ['-/-', '-/-', 'white']]],
    ['duplicate dominant', '15:1', [['a/a', 'b/b', 'ovate'], ['-/-', '-/-', 'triangular']]],
    ['dominant-recessive inhibition', '13:3', [['a/a', 'B/-', 'coloured'], ['-/-', '-/-', 'white']]],
    ['duplicate with cumulative effect', '9:6:1', [['A/-', 'B/-', 'disc'], ['a/a', 'b/b', 'long'], ['-/-', '-/-', 'sphere']]],
  ]; // prettier-ignore
  it.each(dominance)('%s gives %s', (_, expected, rules) => {
    expect(ratio(table(rules))).toBe(expected);
  });
  it('independent dominance gives 9:3:3:1', () => {
    expect(ratio()).toBe('9:3:3:1');
  });
  it('one locus of incomplete dominance gives 6:3:3:2:1:1', () => {
    expect(ratio(undefined, [a3, b])).toBe('6:3:3:2:1:1');
  });
  it('two loci of incomplete dominance give 4:2:2:2:2:1:1:1:1', () => {
    expect(ratio(undefined, [a3, b3])).toBe('4:2:2:2:2:1:1:1:1');
  });
  it('two additive loci give 6:4:4:1:1', () => {
    const doses: Interaction = {
      name: 'doses',
      loci: ['a', 'b'],
      classify: (g) =>
        String(
          Object.values(g)
            .flat()
            .filter((x) => x === 'A' || x === 'B').length,
        ),
    };
    expect(ratio(doses)).toBe('6:4:4:1:1');
  });
});

describe('crosses of Betta splendens', () => {
  const shares = (sire: Record<string, string>, dam: Record<string, string>) =>
    Object.fromEntries(
      cross({ sire, dam }, Object.keys(sire)).classes.map((one) => [
        one.parts.map((part) => part.phenotype).join(' '),
        formatFraction(one.probability),
      ]),
    );
  const [turquoise, royal, steel] = ['Bl/Bl', 'Bl/bl', 'bl/bl'];
  it.each([
    [royal, royal, { turquoise: '1/4', royal: '1/2', steel: '1/4' }],
    [turquoise, steel, { royal: '1' }],
    [turquoise, royal, { turquoise: '1/2', royal: '1/2' }],
    [steel, royal, { steel: '1/2', royal: '1/2' }],
    [turquoise, turquoise, { turquoise: '1' }],
    [steel, steel, { steel: '1' }],
  ])('%s x %s', (sire, dam, expected) => {
    expect(shares({ bl: sire }, { bl: dam })).toEqual(expected);
  });
  it('cambodian', () => {
    expect(shares({ c: 'C/c' }, { c: 'C/c' })).toEqual({ dark: '3/4', cambodian: '1/4' });
    expect(shares({ c: 'C/c' }, { c: 'c/c' })).toEqual({ dark: '1/2', cambodian: '1/2' });
  });
  it('double tail: single x double gives carriers only, not three in four', () => {
    expect(shares({ dt: 'Dt/Dt' }, { dt: 'dt/dt' })).toEqual({ single: '1' });
    const genotypes = crossGenotypes({ sire: { dt: 'Dt/Dt' }, dam: { dt: 'dt/dt' } }, ['dt']);
    expect(genotypes.classes.map((one) => [one.label, formatFraction(one.probability)])).toEqual([
      ['Dt/dt', '1'],
    ]);
    expect(shares({ dt: 'Dt/dt' }, { dt: 'Dt/dt' })).toEqual({ single: '3/4', double: '1/4' });
    expect(shares({ dt: 'Dt/dt' }, { dt: 'dt/dt' })).toEqual({ single: '1/2', double: '1/2' });
  });
  it('melano male x carrier female', () => {
    expect(shares({ m: 'm/m' }, { m: 'M/m' })).toEqual({ melano: '1/2', ordinary: '1/2' });
  });
  it('cambodian and iridescence, unlinked', () => {
    expect(shares({ c: 'C/c', bl: 'Bl/bl' }, { c: 'C/c', bl: 'Bl/bl' })).toEqual({
      'dark royal': '3/8',
      'dark turquoise': '3/16',
      'dark steel': '3/16',
      'cambodian royal': '1/8',
      'cambodian turquoise': '1/16',
      'cambodian steel': '1/16',
    });
  });
  it('reads the opposite capitals of the published notation (V/V is steel)', () => {
    expect(parseGenotype('bl', 'V/V', 'wallbrunn')).toEqual(['steel', 'steel']);
    expect(parseGenotype('bl', 'v/v', 'wallbrunn')).toEqual(['turquoise', 'turquoise']);
    expect(parseGenotype('si', 'Ri/ri', 'wallbrunn')).toEqual(['spread', 'limited']);
  });
  it.each(['nr2', 'rr', 'rl', 'mb', 'ct', 'hm', 'rt', 'gi', 'fs', 'db'])(
    'does not compute %s, and says why',
    (id) => {
      expect(() => cross({ sire: {}, dam: {} }, [id])).toThrowError(
        expect.objectContaining({ code: 'LOCUS_NOT_COMPUTABLE' }) as Error,
      );
    },
  );
  it('lists a disputed locus with its reason among what is not computed', () => {
    const pair = expectPhenotypes({ ct: 'Ct/Ct', c: 'C/c' }, { ct: 'ct/ct', c: 'c/c' });
    expect(pair.computed).toEqual(['c']);
    expect(pair.notComputed).toMatchObject([{ locus: 'ct', reason: 'not-computable' }]);
    expect(pair.notComputed[0]?.text).toContain('contradict');
  });
});

describe('two carriers of a recessive', () => {
  const d = twoAlleleLocus({
    id: 'd',
    name: 'D',
    symbols: ['D', 'd'],
    looks: ['normal', 'affected'],
  });
  const shares = crossGenotypes({ sire: { d: 'D/d' }, dam: { d: 'D/d' } }, [d]).classes;
  const affected = cross({ sire: { d: 'D/d' }, dam: { d: 'D/d' } }, [d]).classes.find(
    (one) => one.label === 'affected',
  );
  it('first child normal 3/4, carrier 1/2; two of two affected 1/16', () => {
    expect(formatFraction(subtractFractions(ONE, affected!.probability))).toBe('3/4');
    expect(shares.map((one) => [one.label, formatFraction(one.probability)])).toEqual([
      ['D/d', '1/2'],
      ['D/D', '1/4'],
      ['d/d', '1/4'],
    ]);
    const both = chanceOfAtLeast({ probability: affected!.probability, atLeast: 2, fry: 2 });
    expect(both).toBeCloseTo(1 / 16, 12);
  });
});
