import {
  alleleSurvival,
  ancestralInbreeding,
  coancestry,
  effectiveAncestors,
  effectiveFounders,
  founderContributions,
  founderGenomeEquivalents,
  genomeEquivalentsByKinship,
  inbreedingByAge,
  inbreedingCoefficients,
  inbreedingOrigins,
  inbreedingPathsOf,
  lineHealth,
  partialInbreedingByFounder,
  partialInbreedingThrough,
  realisedEffectiveSize,
  recentInbreeding,
  relationshipMap,
  simulatedCoancestry,
  simulatedInbreeding,
  simulatedRetention,
} from '@linewright/kinship';
import { generationDepth } from '@linewright/pedigree';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loopedPedigrees } from './looped-pedigrees.js';

const seed = 20_261_126;

/** A pedigree and a non-empty group of its fish. */
const grouped = (maxSize: number) =>
  fc
    .tuple(loopedPedigrees(maxSize), fc.array(fc.nat(), { minLength: 1, maxLength: 6 }))
    .map(
      ([pedigree, draws]) =>
        [pedigree, [...new Set(draws.map((draw) => draw % pedigree.size))]] as const,
    );

const total = (values: Iterable<number>): number => [...values].reduce((sum, v) => sum + v, 0);

describe(`where inbreeding comes from, on random looped pedigrees (seed ${seed})`, () => {
  it('by founder adds up to F, for every fish', () => {
    let compared = 0;
    fc.assert(
      fc.property(loopedPedigrees(40), (pedigree) => {
        const fish = Array.from({ length: pedigree.size }, (_, i) => i);
        const inbreeding = inbreedingCoefficients(pedigree);
        const { sources, values } = partialInbreedingByFounder(pedigree, fish);
        for (const i of fish) {
          const row = values.subarray(i * sources.length, (i + 1) * sources.length);
          expect(Math.min(...row)).toBeGreaterThanOrEqual(0);
          expect(total(row)).toBeCloseTo(inbreeding[i]!, 12);
          if (inbreeding[i]! > 0) compared++;
        }
      }),
      { seed, numRuns: 500 },
    );
    expect(compared).toBeGreaterThan(500);
  });

  it('by origin adds up to F, and what arose in a founder is at most its partial inbreeding', () => {
    fc.assert(
      fc.property(loopedPedigrees(30), (pedigree) => {
        const fish = pedigree.size - 1;
        const { coefficient, origins, complete, meanGenerations } = inbreedingOrigins(
          pedigree,
          fish,
        );
        expect(complete).toBe(true);
        expect(coefficient).toBe(inbreedingCoefficients(pedigree)[fish]);
        expect(total(origins.map((origin) => origin.contribution))).toBeCloseTo(coefficient, 12);
        expect(meanGenerations === null).toBe(coefficient === 0);
        const partial = partialInbreedingByFounder(pedigree, [fish]);
        for (const { ancestor, contribution, meanGenerations: age } of origins) {
          expect(age).toBeGreaterThanOrEqual(1);
          const founder = partial.sources.findIndex(
            (source) => source.founder === ancestor && !source.unknownParent,
          );
          if (founder >= 0) {
            expect(contribution).toBeLessThanOrEqual(partial.values[founder]! + 1e-12);
          }
        }
      }),
      { seed, numRuns: 1000 },
    );
  });

  it('through an ancestor is between what meets first in it and F', () => {
    fc.assert(
      fc.property(loopedPedigrees(24), (pedigree) => {
        const fish = pedigree.size - 1;
        const { ancestors, coefficient } = inbreedingPathsOf(pedigree, fish);
        const through = partialInbreedingThrough(
          pedigree,
          [fish],
          ancestors.map((entry) => entry.ancestor),
        ).values;
        ancestors.forEach((entry, k) => {
          // Genes that meet at A as paths, or again further down, have both come through A.
          expect(through[k]!).toBeGreaterThanOrEqual(entry.contribution - 1e-12);
          expect(through[k]!).toBeLessThanOrEqual(coefficient + 1e-12);
        });
      }),
      { seed, numRuns: 500 },
    );
  });

  it('rises with the generations looked back, from 0 to F', () => {
    fc.assert(
      fc.property(loopedPedigrees(40), (pedigree) => {
        const fish = pedigree.size - 1;
        const whole = inbreedingCoefficients(pedigree)[fish]!;
        const byAge = inbreedingByAge(pedigree, fish);
        expect(byAge.length).toBe(generationDepth(pedigree)[fish]);
        if (byAge.length > 0) expect(byAge.at(-1)).toBe(whole);
        byAge.forEach((value, k) => {
          if (k > 0) expect(value).toBeGreaterThanOrEqual(byAge[k - 1]! - 1e-12);
          const split = recentInbreeding(pedigree, [fish], k + 1)[0]!;
          expect(split.recent).toBe(value);
          expect(split.recent + split.old).toBeCloseTo(whole, 12);
        });
      }),
      { seed, numRuns: 500 },
    );
  });

  it('ancestral inbreeding stays between 0 and 1 and needs an inbred ancestor', () => {
    fc.assert(
      fc.property(loopedPedigrees(40), (pedigree) => {
        const inbreeding = inbreedingCoefficients(pedigree);
        const ancestral = ancestralInbreeding(pedigree);
        expect(ancestral.every((value) => value >= 0 && value <= 1)).toBe(true);
        if (total(inbreeding) === 0) expect(total(ancestral)).toBe(0);
      }),
      { seed, numRuns: 300 },
    );
  });
});

describe(`founders and effective numbers (seed ${seed})`, () => {
  it('contributions add up to 1; effective numbers keep within their bounds', () => {
    fc.assert(
      fc.property(grouped(40), ([pedigree, group]) => {
        const contributions = founderContributions(pedigree, group);
        expect(total(contributions.map((entry) => entry.contribution))).toBeCloseTo(1, 12);
        const fe = effectiveFounders(contributions);
        const fa = effectiveAncestors(pedigree, group);
        expect(total(fa.ancestors.map((entry) => entry.marginal))).toBeCloseTo(1, 9);
        // f_a <= f_e is the rule but no theorem: where generations overlap, an early choice can hold genes of both founders.
        expect(fa.effective).toBeGreaterThanOrEqual(1 - 1e-9);
        expect(fe).toBeLessThanOrEqual(contributions.length + 1e-9);
        expect(genomeEquivalentsByKinship(pedigree, group)).toBeLessThanOrEqual(fe + 1e-9);
        const { meanIncrease } = realisedEffectiveSize(pedigree, group);
        expect(meanIncrease >= 0 && meanIncrease <= 1).toBe(true);
      }),
      { seed, numRuns: 1000 },
    );
  });

  it('exact survival of a founder gene agrees with gene dropping', () => {
    let worst = 0;
    let compared = 0;
    fc.assert(
      fc.property(grouped(25), fc.nat(), ([pedigree, group], dropSeed) => {
        const drops = simulatedRetention(pedigree, group, { seed: dropSeed, replicates: 1000 });
        for (const drop of drops) {
          const exact = alleleSurvival(pedigree, drop, group);
          if (exact === null) throw new Error('25 fish must not be too many');
          expect(exact.oneGene).toBeGreaterThanOrEqual(0);
          expect(exact.anyGene).toBeLessThanOrEqual(1 + 1e-12);
          expect(exact.oneGene).toBeLessThanOrEqual(exact.anyGene + 1e-12);
          // Sure outcomes leave no error to judge by, so a replicate's worth is allowed.
          const error = Math.max(drop.oneGene.standardError, 1 / 1000);
          worst = Math.max(worst, Math.abs(exact.oneGene - drop.oneGene.value) / error);
          const anyError = Math.max(drop.anyGene.standardError, 1 / 1000);
          worst = Math.max(worst, Math.abs(exact.anyGene - drop.anyGene.value) / anyError);
          compared += 2;
        }
      }),
      { seed, numRuns: 150 },
    );
    expect(compared).toBeGreaterThan(1000);
    // The largest of some thousand standard normal deviates is about 3.5; 6 would be an error.
    expect(worst).toBeLessThan(6);
  });

  it('founder genome equivalents are the same exact and simulated, within error', () => {
    fc.assert(
      fc.property(grouped(25), ([pedigree, group]) => {
        const exact = founderGenomeEquivalents(pedigree, group, { seed: 3 });
        const simulated = founderGenomeEquivalents(pedigree, group, {
          seed: 3,
          budget: 0,
          replicates: 4000,
        });
        expect(exact.exact).toBe(true);
        expect(simulated.exact).toBe(false);
        expect(Math.abs(simulated.equivalents / exact.equivalents - 1)).toBeLessThan(0.1);
        expect(exact.equivalents).toBeLessThanOrEqual(effectiveFounders(exact.founders) + 1e-9);
      }),
      { seed, numRuns: 60 },
    );
  });
});

describe(`gene dropping as an independent check (seed ${seed})`, () => {
  it('meets coancestry and inbreeding within its error', () => {
    let squares = 0;
    let worst = 0;
    let compared = 0;
    fc.assert(
      fc.property(loopedPedigrees(30), fc.nat(), fc.nat(), fc.nat(), (pedigree, a, b, dropSeed) => {
        const pair = [a % pedigree.size, b % pedigree.size] as const;
        const options = { seed: dropSeed, replicates: 2000 };
        const [theta] = simulatedCoancestry(pedigree, [pair], options);
        const [f] = simulatedInbreeding(pedigree, [pair[0]], options);
        const expected = [
          coancestry(pedigree, ...pair),
          inbreedingCoefficients(pedigree)[pair[0]]!,
        ];
        [theta!, f!].forEach((estimate, k) => {
          if (estimate.standardError === 0) {
            expect(Math.abs(estimate.value - expected[k]!)).toBeLessThan(0.01);
            return;
          }
          const z = (estimate.value - expected[k]!) / estimate.standardError;
          worst = Math.max(worst, Math.abs(z));
          squares += z * z;
          compared++;
        });
      }),
      { seed, numRuns: 1000 },
    );
    expect(compared).toBeGreaterThan(500);
    expect(worst).toBeLessThan(6);
    // Mean square of standard normal deviates: 1, give or take five times sqrt(2 / n).
    expect(Math.abs(squares / compared - 1)).toBeLessThan(5 * Math.sqrt(2 / compared) + 0.05);
  });
});

describe(`relationship map and line health (seed ${seed})`, () => {
  it('orders every fish once, with families in one piece, whatever the order given', () => {
    fc.assert(
      fc.property(grouped(40), ([pedigree, group]) => {
        const map = relationshipMap(pedigree, group);
        const { order, coancestry: matrix, families } = map;
        expect([...order].sort((a, b) => a - b)).toEqual([...group].sort((a, b) => a - b));
        expect(total(families.map((family) => family.count))).toBe(group.length);
        families.forEach((family, k) => {
          const before = families[k - 1];
          expect(family.start).toBe(before === undefined ? 0 : before.start + before.count);
        });
        const m = order.length;
        for (let row = 0; row < m; row++) {
          for (let column = 0; column < m; column++) {
            expect(matrix[row * m + column]).toBeCloseTo(
              coancestry(pedigree, order[row]!, order[column]!),
              12,
            );
          }
        }
        expect(relationshipMap(pedigree, group)).toEqual(map);
      }),
      { seed, numRuns: 300 },
    );
  });

  it('line health repeats itself and shares add up to 1 in every generation', () => {
    fc.assert(
      fc.property(grouped(40), ([pedigree, inUse]) => {
        const health = lineHealth({ pedigree, inUse, seed: 9, replicates: 100 });
        expect(lineHealth({ pedigree, inUse, seed: 9, replicates: 100 })).toEqual(health);
        const { generations, founders, shares } = health.sharesOverTime;
        generations.forEach((_, row) => {
          const values = shares.subarray(row * founders.length, (row + 1) * founders.length);
          expect(total(values)).toBeCloseTo(1, 12);
        });
        expect(total(health.byGeneration.map((row) => row.count))).toBe(pedigree.size);
        expect(health.effective.founders.value).toBeGreaterThanOrEqual(1 - 1e-12);
        expect(total(health.completeness.byGeneration)).toBeLessThanOrEqual(
          health.completeness.meanEquivalents + 1e-12,
        );
      }),
      { seed, numRuns: 200 },
    );
  });
});
