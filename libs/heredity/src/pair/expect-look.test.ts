import { describe, expect, it } from 'vitest';
import { catalogue } from '../catalogue/catalogue.js';
import { cross } from '../cross/cross.js';
import { crossMixture } from '../cross/mixture.js';
import { possibleShares } from '../cross/possible-shares.js';
import { formatFraction, fractionToNumber, type FractionInput } from '../fraction.js';
import type { GenotypeSet } from '../genotype.js';
import { defineLocus } from '../own-loci/define-locus.js';
import type { Locus } from '../locus.js';
import { expectLook } from './expect-look.js';
import { expectPhenotypes } from './expect-phenotypes.js';
import { showsPhenotype } from './pair-member.js';

const look = (sire: GenotypeSet, dam: GenotypeSet, show: Record<string, string>) => {
  const share = expectLook(sire, dam, show);
  return share && formatFraction(share);
};

describe('a look that another locus hides', () => {
  it.each<[string, GenotypeSet, GenotypeSet, Record<string, string>, string | null]>([
    ['melano, all albino', { al: 'al/al', m: 'M/m' }, { al: 'al/al', m: 'M/m' }, { m: 'melano' }, '0'],
    ['melano, a quarter albino', { al: 'Al/al', m: 'M/m' }, { al: 'Al/al', m: 'M/m' }, { m: 'melano' }, '3/16'],
    ['blond on a dark body only', { c: 'C/c', b: 'B/b' }, { c: 'C/c', b: 'B/b' }, { b: 'blond' }, '3/16'],
    ['blond cambodian cannot be seen', { c: 'C/c', b: 'B/b' }, { c: 'C/c', b: 'B/b' }, { b: 'blond', c: 'cambodian' }, '0'],
    ['nothing on record of albino', { m: 'M/m' }, { m: 'M/m' }, { m: 'melano' }, '1/4'],
    ['albino on record of the sire alone', { al: 'al/al', m: 'M/m' }, { m: 'M/m' }, { m: 'melano' }, null],
    ['the sire cannot pass albino on', { al: 'Al/Al', m: 'M/m' }, { m: 'M/m' }, { m: 'melano' }, '1/4'],
    ['what cannot come cannot be hidden', { al: 'al/al', m: 'M/M' }, { m: 'M/m' }, { m: 'melano' }, '0'],
    ['one part cannot come', { m: 'M/M', dt: 'Dt/dt' }, { m: 'M/m' }, { m: 'melano', dt: 'double' }, '0'],
    ['one part is not known', { m: 'M/m', dt: 'Dt/dt' }, { m: 'M/m' }, { m: 'melano', dt: 'double' }, null],
  ])('%s', (_, sire, dam, show, share) => {
    expect(look(sire, dam, show)).toBe(share);
  }); // prettier-ignore
  it('the whole list of classes says the same', () => {
    const pair = { al: 'Al/al', c: 'C/c', b: 'B/b', m: 'M/m' };
    const { expectation } = expectPhenotypes(pair, pair);
    const blond = (expectation?.classes ?? [])
      .filter((one) => one.parts.some((part) => part.phenotype === 'blond'))
      .reduce((sum, one) => sum + fractionToNumber(one.probability), 0);
    expect(blond).toBeCloseTo((3 / 4) * (3 / 4) * (1 / 4), 12);
    expect(look(pair, pair, { b: 'blond' })).toBe('9/64');
  });
  it('names the locus that may hide another, and what is missing', () => {
    const { computed, notComputed } = expectPhenotypes({ al: 'al/al', m: 'M/m' }, { m: 'M/m' });
    expect(computed).toEqual([]);
    expect(notComputed.find((one) => one.locus === 'm')).toMatchObject({ reason: 'may-be-hidden' });
    expect(notComputed.find((one) => one.locus === 'm')?.text).toContain(
      "without the dam's genotype at albino",
    );
  });
  it('a fish does not show what another locus of its own hides', () => {
    const blond = catalogue.find((one) => one.id === 'b') as Locus;
    const shows = (set: GenotypeSet) => showsPhenotype(set, blond, 'blond', catalogue);
    expect(shows({ b: 'b/b' })).toBe('yes');
    expect(shows({ b: 'b/b', c: 'c/c' })).toBe('no');
    expect(shows({ b: 'b/b', c: 'C/c', al: 'al/-' })).toBe('possible');
    expect(shows({ b: 'b/-' })).toBe('possible');
    expect(shows({ c: 'C/c' })).toBe('unknown');
  });
});

describe('parents that are uncertain, with a class that dies', () => {
  const lethal = defineLocus({
    id: 'k',
    name: 'K',
    alleles: ['K', 'k'].map((id) => ({ id, symbol: id, name: id })),
    phenotypes: ['clear', 'marked'].map((id) => ({ id, name: id })),
    expression: [
      { genotype: 'K/K', shows: [{ phenotype: 'clear', probability: '1' }] },
      { genotype: 'K/k', shows: [{ phenotype: 'marked', probability: '1' }] },
      { genotype: 'k/k', shows: [{ phenotype: 'marked', probability: '1' }] },
    ],
    viability: [{ genotype: 'k/k', survival: '0', why: 'two copies kill' }],
  });
  const half = (a: string, b: string) =>
    [a, b].map((genotype) => ({ genotype, probability: '1/2' as FractionInput }));
  const sire = { k: half('K/K', 'K/k') };
  const dam = { k: 'K/k' };

  it('the share of a brood is the mean over pairs of the share among their living young: 7/12', () => {
    const marked = cross({ sire, dam }, [lethal]).classes.find((one) => one.label === 'marked');
    // K/K x K/k: 1/2 of all that live; K/k x K/k: 2/3 of the three quarters that live.
    expect(marked && formatFraction(marked.probability)).toBe('7/12');
    const mixture = crossMixture(
      half('K/K', 'K/k').map((one) => ({
        weight: one.probability,
        sire: { k: one.genotype },
        dam,
      })),
      [lethal],
    );
    expect(mixture.classes.map((one) => formatFraction(one.probability))).toEqual(['7/12', '5/12']);
    expect(formatFraction(mixture.loss)).toBe('1/8');
    expect(formatFraction(cross({ sire, dam }, [lethal]).loss)).toBe('1/8');
  });
  it('so it is in broods bred by chance: pair drawn, eggs laid, the living counted, whatever the number of eggs (seed 5)', () => {
    let state = 5;
    const random = () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
    let sum = 0;
    const broods = 20_000;
    for (let i = 0; i < broods; i++) {
      const carrier = random() < 1 / 2;
      let living = 0;
      let marked = 0;
      while (living < 10) {
        const fromSire = carrier && random() < 1 / 2;
        const fromDam = random() < 1 / 2;
        if (fromSire && fromDam) continue;
        living++;
        if (fromSire || fromDam) marked++;
      }
      sum += marked / living;
    }
    // Standard error about 0.0012.
    expect(Math.abs(sum / broods - 7 / 12)).toBeLessThan(0.005);
    expect(Math.abs(sum / broods - 4 / 7)).toBeGreaterThan(0.005);
  });
  it('pairs without living young are left out, and count as lost', () => {
    const dying = defineLocus({
      ...lethal,
      id: 'k',
      viability: [{ genotype: 'k/k', survival: '0', why: 'two copies kill' }],
    });
    const brood = cross({ sire: { k: half('K/K', 'k/k') }, dam: { k: 'k/k' } }, [dying]);
    expect(brood.classes.map((one) => [one.label, formatFraction(one.probability)])).toEqual([
      ['marked', '1'],
    ]);
    expect(formatFraction(brood.loss)).toBe('1/2');
  });
  it('what each pair gives is told apart for the number to raise; its mean is the class', () => {
    const shares = possibleShares({ sire, dam }, [lethal]);
    const [marked] = cross({ sire, dam }, [lethal]).classes;
    const list = marked ? shares(marked) : [];
    expect(list.map((one) => [one.weight, formatFraction(one.probability)])).toEqual([
      [0.5, '1/2'],
      [0.5, '2/3'],
    ]);
  });
  it('no young at all: an answer, not an error', () => {
    const pair = expectPhenotypes({ k: 'k/k' }, { k: 'k/k' }, { loci: [lethal] });
    expect(pair.expectation).toBeNull();
    expect(pair.notComputed).toMatchObject([{ locus: 'k', reason: 'no-young-live' }]);
    const share = expectLook({ k: 'k/k' }, { k: 'k/k' }, { k: 'marked' }, { loci: [lethal] });
    expect(share && formatFraction(share)).toBe('0');
  });
});

describe('limits', () => {
  const code = (expected: string) => expect.objectContaining({ code: expected }) as Error;
  const many = (count: number, hiddenBy: (i: number) => Locus['hiddenBy'] = () => []) =>
    Array.from({ length: count }, (_, i) =>
      defineLocus({
        id: `x${String(i)}`,
        name: `X${String(i)}`,
        alleles: ['A', 'a'].map((id) => ({ id, symbol: id, name: id })),
        phenotypes: ['AA', 'Aa', 'aa'].map((id) => ({ id, name: id })),
        expression: [
          { genotype: 'A/A', shows: [{ phenotype: 'AA', probability: '1' }] },
          { genotype: 'A/a', shows: [{ phenotype: 'Aa', probability: '1' }] },
          { genotype: 'a/a', shows: [{ phenotype: 'aa', probability: '1' }] },
        ],
        hiddenBy: hiddenBy(i),
      }),
    );
  const all = (loci: readonly Locus[]) =>
    Object.fromEntries(loci.map((locus) => [locus.id, 'A/a']));
  it.each<[string, readonly Locus[]]>([
    ['11 loci with three looks each', many(11)],
    ['12 loci that hide one another', many(12, (i) => (i === 0 ? [] : [{ locus: `x${String(i - 1)}`, phenotypes: ['aa'], why: 'hides' }]))],
    ['60 loci', many(60)],
  ])('%s are refused by name', (_, loci) => {
    const pair = all(loci);
    expect(() => cross({ sire: pair, dam: pair }, loci)).toThrowError(code('TOO_LARGE'));
    expect(() => cross({ sire: pair, dam: pair }, loci)).toThrowError(/Look at fewer .*loci/);
  }); // prettier-ignore
  it('eight loci with three looks each are worked out', () => {
    const loci = many(8);
    const pair = all(loci);
    expect(cross({ sire: pair, dam: pair }, loci).classes).toHaveLength(3 ** 8);
  });
  it('a locus of 1,000 alleles is refused', () => {
    const names = Array.from({ length: 1000 }, (_, i) => `a${String(i)}`);
    expect(() =>
      defineLocus({
        id: 'big',
        name: 'Big',
        alleles: names.map((id) => ({ id, symbol: id, name: id })),
        phenotypes: [{ id: 'one', name: 'one' }],
        expression: [{ genotype: '-/-', shows: [{ phenotype: 'one', probability: '1' }] }],
      }),
    ).toThrowError(/1,000 alleles.*at most 7/);
  });
});
