import {
  addFractions,
  compareFractions,
  cross,
  crossGenotypes,
  defineLocus,
  formatFraction,
  fraction,
  fractionToNumber,
  goodnessOfFit,
  multiplyFractions,
  ONE,
  parsePartialGenotype,
  sumFractions,
  toFraction,
  ZERO,
  type Fraction,
  type Locus,
} from '@linewright/heredity';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

interface DrawnLocus {
  readonly alleles: number;
  readonly dominance: boolean;
  readonly penetrance: number;
  readonly sire: readonly [number, number];
  readonly dam: readonly [number, number];
  readonly lethal: number;
}

const drawnLocus: fc.Arbitrary<DrawnLocus> = fc
  .record({
    alleles: fc.integer({ min: 2, max: 3 }),
    dominance: fc.boolean(),
    penetrance: fc.integer({ min: 0, max: 4 }),
    sire: fc.tuple(fc.nat(2), fc.nat(2)),
    dam: fc.tuple(fc.nat(2), fc.nat(2)),
    lethal: fc.integer({ min: 1, max: 4 }),
  })
  .map((one) => ({
    ...one,
    sire: [one.sire[0] % one.alleles, one.sire[1] % one.alleles],
    dam: [one.dam[0] % one.alleles, one.dam[1] % one.alleles],
  }));

const symbol = (locus: number, allele: number) => `L${locus}a${allele}`;

function toLocus(drawn: DrawnLocus, at: number): Locus {
  const symbols = Array.from({ length: drawn.alleles }, (_, a) => symbol(at, a));
  const shows = (phenotype: string) => [{ phenotype, probability: '1' }];
  const homozygotes = symbols.map((s) => ({ genotype: `${s}/${s}`, shows: shows(s) }));
  const last = symbols.at(-1)!;
  return defineLocus({
    id: `L${at}`,
    name: `L${at}`,
    alleles: symbols.map((id) => ({ id, symbol: id, name: id })),
    phenotypes: [...symbols, 'mixed'].map((id) => ({ id, name: id })),
    expression: [
      ...homozygotes.slice(0, -1),
      {
        genotype: `${last}/${last}`,
        shows: [
          { phenotype: last, probability: `${drawn.penetrance}/4` },
          { phenotype: symbols[0]!, probability: `${4 - drawn.penetrance}/4` },
        ],
      },
      { genotype: '-/-', shows: shows(drawn.dominance ? symbols[0]! : 'mixed') },
    ],
    viability: [{ genotype: `${last}/${last}`, survival: `${drawn.lethal}/4`, why: 'drawn' }],
  });
}

const setOf = (loci: readonly DrawnLocus[], parent: 'sire' | 'dam') =>
  Object.fromEntries(
    loci.map((one, i) => [`L${i}`, `${symbol(i, one[parent][0])}/${symbol(i, one[parent][1])}`]),
  );

describe('crosses', () => {
  it('probabilities sum to exactly 1, whatever the loci, linkage, penetrance and viability (seed 20260111)', () => {
    fc.assert(
      fc.property(
        fc.array(drawnLocus, { minLength: 1, maxLength: 5 }),
        fc.array(fc.integer({ min: 0, max: 20 }), { minLength: 4, maxLength: 4 }),
        fc.boolean(),
        (drawn, recombination, unknownPhase) => {
          const loci = drawn.map(toLocus);
          const linkage = loci.slice(1).flatMap((one, i) =>
            recombination[i] === 20
              ? []
              : [
                  {
                    loci: [loci[i]!.id, one.id] as const,
                    recombination: `${recombination[i]!}/40`,
                  },
                ],
          );
          const parents = { sire: setOf(drawn, 'sire'), dam: setOf(drawn, 'dam') };
          const options = unknownPhase
            ? { linkage, phase: { sire: 'unknown', dam: 'unknown' } as const }
            : { linkage };
          const brood = cross(parents, loci, options);
          expect(formatFraction(sumFractions(brood.classes.map((one) => one.probability)))).toBe(
            '1',
          );
          for (const { genotypes } of brood.perLocus) {
            expect(formatFraction(sumFractions(genotypes.map((one) => one.probability)))).toBe('1');
          }
          const joint = crossGenotypes(parents, loci, options);
          expect(formatFraction(sumFractions(joint.classes.map((one) => one.probability)))).toBe(
            '1',
          );
          expect(compareFractions(joint.loss, brood.loss)).toBe(0);
          expect(compareFractions(brood.loss, ZERO)).toBeGreaterThanOrEqual(0);
          for (let i = 1; i < brood.classes.length; i++) {
            expect(
              compareFractions(brood.classes[i - 1]!.probability, brood.classes[i]!.probability),
            ).toBeGreaterThanOrEqual(0);
          }
        },
      ),
      { seed: 20260111, numRuns: 200 },
    );
  });

  it('two linked loci equal the sum over the sixteen gamete pairs, written out (seed 20260112)', () => {
    fc.assert(
      fc.property(drawnLocus, drawnLocus, fc.integer({ min: 0, max: 20 }), (first, second, r) => {
        const drawn = [first, second].map((one) => ({ ...one, lethal: 4 }));
        const loci = drawn.map(toLocus);
        const rate = fraction(r, 40);
        const keep = fraction(40 - r, 40);
        // Strand of the first locus, strand of the second.
        const gametes = (parent: 'sire' | 'dam') =>
          [0, 1].flatMap((x) =>
            [0, 1].map((y) => ({
              alleles: [drawn[0]![parent][x as 0 | 1], drawn[1]![parent][y as 0 | 1]] as const,
              chance: multiplyFractions(fraction(1, 2), x === y ? keep : rate),
            })),
          );
        const expected = new Map<string, Fraction>();
        for (const s of gametes('sire')) {
          for (const d of gametes('dam')) {
            const key = [0, 1]
              .map((i) =>
                [s.alleles[i as 0 | 1], d.alleles[i as 0 | 1]]
                  .sort()
                  .map((a) => symbol(i, a))
                  .join('/'),
              )
              .join(' ');
            expected.set(
              key,
              addFractions(expected.get(key) ?? ZERO, multiplyFractions(s.chance, d.chance)),
            );
          }
        }
        const brood = crossGenotypes(
          { sire: setOf(drawn, 'sire'), dam: setOf(drawn, 'dam') },
          loci,
          { linkage: [{ loci: ['L0', 'L1'], recombination: rate }] },
        );
        const positive = [...expected].filter(([, p]) => p.numerator > 0n);
        expect(brood.classes.length).toBe(positive.length);
        for (const one of brood.classes) {
          expect(formatFraction(one.probability)).toBe(formatFraction(expected.get(one.label)!));
        }
      }),
      { seed: 20260112, numRuns: 200 },
    );
  });

  it('swapping the parents changes nothing when recombination is the same in both sexes (seed 20260113)', () => {
    fc.assert(
      fc.property(fc.array(drawnLocus, { minLength: 1, maxLength: 4 }), (drawn) => {
        const loci = drawn.map(toLocus);
        const [sire, dam] = [setOf(drawn, 'sire'), setOf(drawn, 'dam')];
        const table = (a: typeof sire, b: typeof dam) =>
          Object.fromEntries(
            cross({ sire: a, dam: b }, loci).classes.map((one) => [
              one.key,
              formatFraction(one.probability),
            ]),
          );
        expect(table(sire, dam)).toEqual(table(dam, sire));
      }),
      { seed: 20260113, numRuns: 100 },
    );
  });
});

describe('exact fit test', () => {
  it('is a probability, is 1 for the likeliest outcome, and does not depend on the order of classes (seed 20260114)', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(8), fc.integer({ min: 1, max: 9 })), {
          minLength: 2,
          maxLength: 4,
        }),
        (cells) => {
          const counts = cells.map(([count]) => count);
          if (counts.every((count) => count === 0)) return;
          const ratio = cells.map(([, share]) => share);
          const fit = goodnessOfFit(counts, ratio);
          expect(fit.method).toBe('exact');
          // Written apart: every outcome in turn, its chance from whole numbers.
          const total = counts.reduce((a, b) => a + b, 0);
          const whole = ratio.reduce((a, b) => a + b, 0);
          const ways = (of: readonly number[]) => {
            let product = 1n;
            let left = BigInt(total);
            of.forEach((count, i) => {
              for (let k = 1n; k <= BigInt(count); k++, left--) product = (product * left) / k;
              product *= BigInt(ratio[i] ?? 0) ** BigInt(count);
            });
            return product;
          };
          const seen = ways(counts);
          let unlikely = 0n;
          let most = 0n;
          let best: readonly number[] = [];
          const go = (made: readonly number[], left: number): void => {
            if (made.length === ratio.length - 1) {
              const outcome = [...made, left];
              const chance = ways(outcome);
              if (chance <= seen) unlikely += chance;
              if (chance > most) [most, best] = [chance, outcome];
              return;
            }
            for (let k = 0; k <= left; k++) go([...made, k], left - k);
          };
          go([], total);
          const p = Number((unlikely * 10n ** 15n) / BigInt(whole) ** BigInt(total)) / 1e15;
          expect(fit.pValue).toBeCloseTo(p, 9);
          expect(goodnessOfFit(best, ratio).pValue).toBeCloseTo(1, 9);
          const turned = goodnessOfFit([...counts].reverse(), [...ratio].reverse());
          expect(turned.pValue).toBeCloseTo(fit.pValue, 9);
        },
      ),
      { seed: 20260114, numRuns: 200 },
    );
  });
});

describe('fractions', () => {
  it('survive text and agree with doubles (seed 20260115)', () => {
    fc.assert(
      fc.property(
        fc.bigInt({ min: -(10n ** 30n), max: 10n ** 30n }),
        fc.bigInt({ min: 1n, max: 10n ** 30n }),
        (n, d) => {
          const value = fraction(n, d);
          expect(toFraction(formatFraction(value))).toEqual(value);
          const double = fractionToNumber(value);
          expect(Math.abs(double - Number(n) / Number(d))).toBeLessThanOrEqual(
            Math.abs(double) * 1e-14,
          );
        },
      ),
      { seed: 20260115 },
    );
  });
  it('partly known genotypes always include the wholly known ones they fit', () => {
    expect(parsePartialGenotype('bl', '-/-')).toHaveLength(3);
    expect(compareFractions(ONE, sumFractions([fraction(1, 2), fraction(1, 2)]))).toBe(0);
  });
});
