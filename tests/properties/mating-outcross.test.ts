import {
  allGenotypes,
  catalogue,
  findLocus,
  genotypesShowing,
  parseGenotype,
} from '@linewright/heredity';
import { coancestryBlock, inbreedingCoefficients } from '@linewright/kinship';
import {
  beliefOfFish,
  chooseOutcrossFish,
  Draws,
  Forecast,
  genotypesSeen,
  looksHidden,
  MatingError,
  outcrossCourse,
  planned,
  plannedWithOutcross,
  SimulatedLine,
  whenToOutcross,
  withDescribedFish,
  type AfterOutcross,
  type ForecastInput,
  type LineBelief,
  type OutcrossFish,
  type TraitAim,
} from '@linewright/mating';
import { pedigreeFromArrays, type Pedigree } from '@linewright/pedigree';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beliefOf, recessive, showing } from '../made-belief.js';

const SEED = 20261127;
const aim: TraitAim = { traitId: 't', better: 'higher', low: null, high: null, worth: 2 };
const fish: OutcrossFish = { partner: 3, mate: 0, back: 1 };
const ofLine = [1, 1, 1, 0];

/** Males 0 and 2, females 1 and 3; the last is not of the line. */
const believed = (
  values: readonly number[],
  genotypes: readonly string[] = ['A/A'],
): LineBelief => ({
  ...beliefOf({ fish: 4, loci: [[recessive('a'), ...genotypes]] }),
  traits: [
    {
      ...{ traitId: 't', level: 100, additive: 4, commonBrood: 1, residual: 4 },
      value: Float64Array.from(values),
      error: Float64Array.from({ length: 16 }, (_, k) => (k % 5 === 0 ? 1 : 0.25)),
    },
  ],
});
const course = (
  belief: LineBelief,
  generations: number,
  which = fish,
  after: AfterOutcross = 'back',
) =>
  outcrossCourse({
    ...{ belief, ofLine, fish: which, aims: [aim], generations, after },
    alleles: [{ locusId: 'a', alleleId: 'a' }],
  });

describe('a cross to a fish from outside, and back', () => {
  it('has the F of the pedigree with its young written in', () => {
    const founders = 6;
    const young = fc.array(fc.tuple(fc.nat(), fc.nat()), { minLength: 2, maxLength: 20 });
    fc.assert(
      fc.property(young, fc.nat(), fc.nat(), fc.nat(), (pairs, a, b, c) => {
        // Even fish are males, odd ones females.
        const sires = Array.from({ length: founders }, () => -1);
        const dams = [...sires];
        for (const [s, d] of pairs) {
          const half = Math.floor(sires.length / 2);
          sires.push(2 * (s % half));
          dams.push(2 * (d % half) + 1);
        }
        const size = sires.length;
        const half = Math.floor(size / 2);
        const which = { partner: 2 * (a % half), mate: 2 * (b % half) + 1, back: c % size };
        if (which.back === which.partner) return;
        const actual = pedigreeFromArrays(Int32Array.from(sires), Int32Array.from(dams));
        const all = Int32Array.from({ length: size }, (_, k) => k);
        const belief = {
          ...beliefOf({ fish: size }),
          coancestry: coancestryBlock(actual, all, all),
        };
        const line = all.map((k) => Number(k !== which.partner));
        for (const after of ['back', 'within'] as const) {
          const told = outcrossCourse({
            ...{ belief, ofLine: line, fish: which, aims: [], alleles: [], generations: 4, after },
          }).generations.map(({ inbreeding }) => inbreeding);
          const written = writtenIn(sires, dams, which, { generations: 4, after });
          told.forEach((f, k) => expect(f).toBeCloseTo(written[k]!, 12));
        }
      }),
      { seed: SEED, numRuns: 100 },
    );
  });

  it.each(['back', 'within'] as const)(
    'has the means and allele shares of simulated young, and their errors: %s',
    (after) => {
      const belief = believed([3, 1, 0, -4], ['A/a', 'a/a', 'A/A', 'A/a']);
      const exact = course(belief, 3, fish, after).generations;
      const line = new SimulatedLine(belief);
      const n = 4_000;
      const seen = exact.map(() => ({ sum: 0, squares: 0, copies: 0, carried: 0, twice: 0 }));
      for (let k = 0; k < n; k++) {
        line.begin(new Draws(SEED + 7919 * k));
        let last = line.spawn(fish.mate, fish.partner, 2).first;
        seen.forEach((tally, g) => {
          // The sexes of sibs make no difference to what they pass on.
          if (g > 0) last = line.spawn(last, after === 'back' ? fish.back : last + 1, 2).first;
          const value = 100 + line.value[last]!;
          const copies = line.copies(last, 0, 1);
          tally.sum += value;
          tally.squares += value ** 2;
          tally.copies += copies / 2;
          tally.carried += Number(copies > 0);
          tally.twice += Number(copies === 2);
        });
      }
      exact.forEach(({ traits: [trait], alleles: [allele] }, g) => {
        const { sum, squares, ...counts } = seen[g]!;
        const error = Math.sqrt((squares / n - (sum / n) ** 2) / n);
        expect(Math.abs(sum / n - trait!.mean)).toBeLessThan(4 * error);
        const near = (count: number, chance: number): void =>
          expect(Math.abs(count / n - chance)).toBeLessThan(4 * Math.sqrt(0.25 / n));
        near(counts.copies, allele!.frequency);
        near(counts.carried, allele!.carried);
        near(counts.twice, allele!.twice);
      });
    },
  );

  it('says how far a trait falls behind the line and when it is back', () => {
    const { traits } = course(believed([4, 4, 4, -12]), 3);
    // The young of the cross stand at -4, 8 below; a tenth of the spread is 0.3: 8, 4, 2, 1, 0.5, 0.25.
    expect(traits[0]).toMatchObject({ lineMean: 104, partner: 88, lost: 8, backAfter: 5 });
    expect(course(believed([0, 0, 0, 6]), 3).traits[0]).toMatchObject({ lost: -3, backAfter: 0 });
    // Put back to a fish far below the line's mean it never comes back.
    expect(course(believed([9, -9, 9, 0]), 3).traits[0]!.backAfter).toBeNull();
  });

  it('has errors of means that go together in relatives', () => {
    const [first, second] = course(believed([0, 0, 0, 0]), 2).generations;
    expect(first!.traits[0]!.standardError).toBeCloseTo(Math.sqrt(0.5 + 0.125), 12);
    // Shares 1/4, 1/4 and 1/2: 3/8 of the variance, and 5/8 of the covariance.
    expect(second!.traits[0]!.standardError).toBeCloseTo(Math.sqrt(0.375 + 0.625 * 0.25), 12);
  });

  it('keeps genotypes together that are believed together', () => {
    const belief = believed([0, 0, 0, 0]);
    const { locus } = belief.loci[0]!;
    const of = (text: string) => parseGenotype(locus, text);
    const both = (text: string) => ({ genotypes: [of(text), of(text)], probability: 0.5 });
    const groups = [
      { fish: [0, 3], outcomes: [both('A/A'), both('a/a')] },
      { fish: [1], outcomes: [{ genotypes: [of('A/a')], probability: 1 }] },
      { fish: [2], outcomes: [{ genotypes: [of('A/A')], probability: 1 }] },
    ];
    const [first] = course({ ...belief, loci: [{ locus, groups }] }, 1).generations;
    expect(first!.alleles[0]).toMatchObject({ frequency: 0.5, carried: 0.5, twice: 0.5 });
  });

  it('refuses a partner of the line, a mate of its own sex and generations without end', () => {
    const belief = believed([0, 0, 0, 0]);
    for (const [which, generations] of [
      [{ ...fish, partner: 1 }, 2],
      [{ ...fish, mate: 1 }, 2],
      [fish, 11],
    ] as const)
      expect(() => course(belief, generations, which)).toThrow(MatingError);
  });

  it('chooses the mate with most points, and another to go back to', () => {
    const choose = (values: readonly number[]) =>
      chooseOutcrossFish({ belief: believed(values), ofLine, aims: [aim] }, 3);
    expect(choose([1, 2, 3, 0])).toEqual({ partner: 3, mate: 2, back: 1 });
    expect(choose([5, 2, 3, 0])).toEqual({ partner: 3, mate: 0, back: 2 });
    const alone = { belief: believed([0, 0, 0, 0]), ofLine: [0, 1, 0, 0], aims: [] };
    expect(chooseOutcrossFish(alone, 3)).toBeNull();
  });

  it('keeps to the fish that are named', () => {
    const choose = (named: object) =>
      chooseOutcrossFish({ belief: believed([5, 2, 3, 0]), ofLine, aims: [aim] }, 3, named);
    expect(choose({ mate: 2 })).toEqual({ partner: 3, mate: 2, back: 0 });
    expect(choose({ back: 1 })).toEqual({ partner: 3, mate: 0, back: 1 });
    expect(choose({ mate: 0, back: 0 })).toEqual({ partner: 3, mate: 0, back: 0 });
    // The only male, named to go back to, is the mate as well.
    expect(
      chooseOutcrossFish({ belief: believed([0, 0, 0, 0]), ofLine: [1, 1, 0, 0], aims: [aim] }, 3, {
        back: 0,
      }),
    ).toEqual({ partner: 3, mate: 0, back: 0 });
    // A female is no mate for a female.
    expect(choose({ mate: 1 })).toBeNull();
  });

  it('believes of some of the fish what was believed of them among all', () => {
    const belief = believed([1, 2, 3, 4], ['A/A', 'A/a', 'a/a', 'A/a']);
    const part = beliefOfFish(belief, [3, 0]);
    expect(part).toMatchObject({ fish: [belief.fish[3], belief.fish[0]], sex: ['female', 'male'] });
    expect(Array.from(part.traits[0]!.value)).toEqual([4, 1]);
    expect(Array.from(part.traits[0]!.error)).toEqual([1, 0.25, 0.25, 1]);
    expect(Array.from(part.coancestry)).toEqual([15, 12, 3, 0].map((k) => belief.coancestry[k]));
    expect(part.loci[0]!.groups.map(({ fish: of }) => of)).toEqual([[1], [0]]);
    expect(() => new SimulatedLine(part)).not.toThrow();
  });
});

/** F of one young a generation, by the engine. */
function writtenIn(
  sires: readonly number[],
  dams: readonly number[],
  { partner, mate, back }: OutcrossFish,
  { generations, after }: { generations: number; after: AfterOutcross },
): number[] {
  const [s, d] = [
    [...sires, partner],
    [...dams, mate],
  ];
  const first = [sires.length];
  // The engine asks for no sex of its parents' order: the fish gone back to stands as the sire.
  while (first.length < generations) {
    const last = first.at(-1)!;
    if (after === 'within') {
      s.push(s[last]!);
      d.push(d[last]!);
    }
    first.push(s.length);
    d.push(last);
    s.push(after === 'back' ? back : last + 1);
  }
  const whole: Pedigree = pedigreeFromArrays(Int32Array.from(s), Int32Array.from(d));
  const inbreeding = inbreedingCoefficients(whole);
  return first.map((one) => inbreeding[one]!);
}

describe('a fish that is described by its looks', () => {
  it('has the genotypes that show them, with the chances of equally common alleles', () => {
    const chances = (locus: string, shown?: string) =>
      genotypesSeen(findLocus(locus), shown).map(({ genotypes, probability }) => [
        genotypes[0]!.join(' '),
        probability,
      ]);
    const made = (shown?: string) =>
      genotypesSeen(recessive('a'), shown).map(({ genotypes, probability }) => [
        genotypes[0]!.toSorted().join('/'),
        Number(probability.toFixed(12)),
      ]);
    expect(made('dominant')).toEqual([['A/A', 0.333333333333], ['A/a', 0.666666666667]]); // prettier-ignore
    expect(made('recessive')).toEqual([['a/a', 1]]);
    expect(made()).toEqual([['A/A', 0.25], ['A/a', 0.5], ['a/a', 0.25]]); // prettier-ignore
    expect(chances('bl', 'steel').map(([genotype]) => genotype)).toEqual(
      genotypesShowing('bl', 'steel').map((one) => one.join(' ')),
    );
    expect(chances('bl')).toHaveLength(allGenotypes('bl').length);
    expect(() => genotypesSeen(recessive('a'), 'striped')).toThrow(/striped/);
  });

  it('says which of its looks another one hides', () => {
    const hidden = (shows: Record<string, string>) =>
      looksHidden(catalogue, shows).map(({ locus }) => locus.id);
    const [gated] = catalogue.filter(({ hiddenBy }) => hiddenBy.length > 0);
    const [gate] = gated!.hiddenBy;
    const look = gated!.phenotypes[0]!.id;
    expect(hidden({ [gated!.id]: look, [gate!.locus]: gate!.phenotypes[0]! })).toEqual([gated!.id]);
    expect(hidden({ [gated!.id]: look, [gate!.locus]: 'not one that hides' })).toEqual([]);
    expect(hidden({ [gate!.locus]: gate!.phenotypes[0]! })).toEqual([]);
  });

  it('is unrelated, and of the base with its whole variance', () => {
    const wide = withDescribedFish(believed([1, 2, 3, 4]), {
      ...{ id: 'seen', sex: 'female', shows: { a: 'recessive' } },
    });
    expect(wide.fish).toHaveLength(5);
    expect(Array.from(wide.coancestry.slice(-5))).toEqual([0, 0, 0, 0, 0.5]);
    expect(wide.traits[0]!.value[4]).toBe(0);
    expect(Array.from(wide.traits[0]!.error.slice(-5))).toEqual([0, 0, 0, 0, 4]);
    expect(wide.coancestry[6]).toBe(0.5);
    expect(() => new SimulatedLine(wide)).not.toThrow();
    const [first] = outcrossCourse({
      ...{ belief: wide, ofLine: [1, 1, 1, 1, 0], aims: [], generations: 1 },
      ...{ fish: { partner: 4, mate: 0, back: 1 }, alleles: [{ locusId: 'a', alleleId: 'a' }] },
    }).generations;
    expect(first!.alleles[0]).toMatchObject({ carried: 1, twice: 0, frequency: 0.5 });
  });
});

describe('when to outcross at all', () => {
  const settings = { broods: 2, broodsPerFish: 2, fryPerBrood: 6, keptPerBrood: 2 };
  const rest = { ...settings, kinshipRise: null, generations: 3, seed: SEED };
  const forecast = (input: Omit<ForecastInput, keyof typeof rest>, n = 60) => {
    const run = new Forecast({ ...rest, ...input });
    run.advance(n);
    return run.standing();
  };
  /** The line's fish with this coancestry to each other and this genotype; the partner, last, is related to none. */
  const line = (theta: number, genotype: string): LineBelief => {
    const belief = beliefOf({
      ...{ fish: 4, loci: [[recessive('a'), genotype, genotype, genotype, 'a/a']] },
    });
    for (let a = 0; a < 3; a++)
      for (let b = 0; b < 3; b++) belief.coancestry[a * 4 + b] = a === b ? (1 + theta) / 2 : theta;
    return belief;
  };
  const advice = (theta: number, genotype: string, ceiling: number) => {
    const belief = line(theta, genotype);
    const own = beliefOfFish(belief, [0, 1, 2]);
    const purpose = { traits: [], looks: [showing('a', { worth: 1 })] };
    const alleles = [{ locusId: 'a', alleleId: 'a' }];
    const without = forecast({ belief: own, purpose, alleles, strategy: () => planned });
    const withIt = forecast({
      ...{ belief, purpose, alleles },
      strategy: () => plannedWithOutcross({ partner: 3, mate: 0 }, belief, null),
    });
    return whenToOutcross(without, withIt, { ceiling, aims: [] });
  };

  it('a line whose F passes the ceiling needs it, and its F falls', () => {
    const { verdict, needs, gains } = advice(0.4, 'a/a', 0.45);
    expect(verdict).toBe('outcross');
    expect(needs.map(({ kind }) => kind)).toEqual(['inbreeding']);
    expect(gains[0]!.with).toBeLessThan(gains[0]!.without);
  });

  it('a line far from its ceiling that has all it wants does not', () => {
    expect(advice(0, 'a/a', 1)).toMatchObject({ verdict: 'not-now', needs: [] });
  });

  it('a wanted allele that the line lacks speaks for it', () => {
    const { verdict, gains } = advice(0, 'A/A', 1);
    expect(verdict).toBe('brings');
    expect(gains).toContainEqual({
      ...{ kind: 'allele', subject: 'a a', without: 0, with: expect.any(Number) as number },
    });
  });

  it('another partner is needed where this one changes nothing', () => {
    const belief = line(0.4, 'a/a');
    const same = forecast({
      belief,
      purpose: { traits: [], looks: [showing('a', { worth: 1 })] },
      alleles: [],
      strategy: () => planned,
    });
    const found = whenToOutcross(same, same, { ceiling: 0, aims: [] });
    expect(found).toMatchObject({ verdict: 'other-partner', gains: [], costs: [] });
  });

  it('the outcross is one brood of the first generation, the others are the line alone', () => {
    const belief = line(0, 'a/a');
    const strategy = plannedWithOutcross({ partner: 3, mate: 0 }, belief, 0.1);
    const choice = {
      ...{ males: [0, 2], females: [1, 3], broods: 3, broodsPerFish: 3, kinshipLimit: 1 },
      ...{ bestOfBroods: () => [0, 1, 2, 3], broodOf: (one: number) => -1 - one },
      ...{ worth: (one: number) => one, scored: (one: number) => one, draws: new Draws(1) },
      coancestry: (a: number, b: number) => belief.coancestry[a * 4 + b]!,
    };
    const pairs = strategy(choice);
    expect(pairs).toHaveLength(3);
    expect(pairs.at(-1)).toEqual([0, 3]);
    expect(pairs.slice(0, 2).flat()).not.toContain(3);
  });
});
