import {
  ancestralInbreeding,
  coancestry,
  coancestryBlock,
  eachInbreedingPath,
  effectiveAncestors,
  effectiveFounders,
  founderContributions,
  founderGenomeEquivalents,
  genomeEquivalentsByKinship,
  groupUnknownParents,
  GrowingKinship,
  inbreedingByAge,
  inbreedingByGeneration,
  inbreedingCoefficients,
  inbreedingOrigins,
  inbreedingPathsOf,
  KinshipError,
  lineHealth,
  meanKinship,
  multiplyRelationship,
  partialInbreedingByFounder,
  partialInbreedingThrough,
  realisedEffectiveSize,
  recentInbreeding,
  relationshipInverse,
  relationshipMap,
  simulatedAncestralInbreeding,
  simulatedCoancestry,
  simulatedInbreeding,
  tabularRelationship,
  tracedInbreeding,
  type FounderRelationship,
  type InbreedingPath,
} from '@linewright/kinship';
import { NO_PARENT, pedigreeFromArrays, type Pedigree } from '@linewright/pedigree';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loopedPedigrees } from './looped-pedigrees.js';

const seed = 20_261_127;
const digits = 11;

/** One stock twice: cut off above its founders, with their coancestries given; and with the ancestors that they come from. */
interface TwoTellings {
  readonly cut: Pedigree;
  readonly founders: FounderRelationship;
  readonly whole: Pedigree;
  /** Index in `whole` of each fish of `cut`. */
  readonly placeOf: Int32Array;
  /** F of every stand-in ancestor is 0. */
  readonly standInsNotInbred: boolean;
}

/** Founders of the lower pedigree get parents in the upper one; some stay unrelated to it. */
function told(lower: Pedigree, upper: Pedigree, draws: readonly number[]): TwoTellings {
  const isFounder = (i: number) => lower.sire[i]! < 0 && lower.dam[i]! < 0;
  const all = [...lower.sire.keys()];
  const given = all.filter((i) => isFounder(i) && draws[i % draws.length]! % 5 > 0);
  const placeOf = new Int32Array(lower.size);
  let next = upper.size;
  for (const i of all) placeOf[i] = next++;
  const sire = new Int32Array(next).fill(NO_PARENT);
  const dam = new Int32Array(next).fill(NO_PARENT);
  sire.set(upper.sire);
  dam.set(upper.dam);
  for (const i of all) {
    if (lower.sire[i]! >= 0) sire[placeOf[i]!] = placeOf[lower.sire[i]!]!;
    if (lower.dam[i]! >= 0) dam[placeOf[i]!] = placeOf[lower.dam[i]!]!;
  }
  given.forEach((i, k) => {
    const draw = draws[(3 * k + 1) % draws.length]!;
    sire[placeOf[i]!] = 2 * (draw % ((upper.size + 1) >> 1));
    dam[placeOf[i]!] = 2 * ((draw >> 4) % (upper.size >> 1)) + 1;
  });
  const whole = pedigreeFromArrays(sire, dam);
  const a = tabularRelationship(whole);
  const founders = {
    founders: given,
    coancestry: given.flatMap((i) =>
      given.map((j) => a[placeOf[i]! * whole.size + placeOf[j]!]! / 2),
    ),
  };
  const f = inbreedingCoefficients(whole).subarray(0, upper.size);
  return { cut: lower, founders, whole, placeOf, standInsNotInbred: f.every((x) => x === 0) };
}

const tellings = (most: number): fc.Arbitrary<TwoTellings> =>
  fc
    .tuple(
      loopedPedigrees(most),
      loopedPedigrees(8),
      fc.array(fc.nat(999), { minLength: 4, maxLength: 12 }),
    )
    .map(([lower, upper, draws]) => told(lower, upper, draws));

const sum = (values: Iterable<number>): number => [...values].reduce((a, b) => a + b, 0);

describe(`given coancestries of founders equal their written-out ancestors (seed ${seed})`, () => {
  it('in F, coancestry, blocks, products, means and growth', () => {
    let related = 0;
    fc.assert(
      fc.property(tellings(30), fc.nat(), ({ cut, founders, whole, placeOf }, bits) => {
        const options = { founders };
        const f = inbreedingCoefficients(whole);
        if (sum(Array.from(founders.coancestry)) > founders.founders.length / 2) related++;
        for (const method of ['auto', 'tabular', 'trace'] as const) {
          const own = inbreedingCoefficients(cut, { ...options, method });
          own.forEach((value, i) => expect(value).toBeCloseTo(f[placeOf[i]!]!, digits));
        }
        expect([...tracedInbreeding(cut, options)]).toHaveLength(cut.size);
        const group = [...placeOf.keys()].filter((i) => i === 0 || (bits >>> (i % 31)) & 1);
        const places = group.map((i) => placeOf[i]!);
        const block = coancestryBlock(cut, group, group, options);
        coancestryBlock(whole, places, places).forEach((value, k) =>
          expect(block[k]).toBeCloseTo(value, digits),
        );
        meanKinship(whole, places).forEach((value, k) =>
          expect(meanKinship(cut, group, options)[k]).toBeCloseTo(value, digits),
        );
        const x = Float64Array.from({ length: cut.size }, (_, i) => Math.cos(i + bits));
        const xWhole = new Float64Array(whole.size);
        placeOf.forEach((place, i) => (xWhole[place] = x[i]!));
        const product = multiplyRelationship(whole, xWhole);
        multiplyRelationship(cut, x, options).forEach((value, i) =>
          expect(value).toBeCloseTo(product[placeOf[i]!]!, digits - 1),
        );
        expect(genomeEquivalentsByKinship(cut, group, options)).toBeCloseTo(
          genomeEquivalentsByKinship(whole, places),
          digits - 1,
        );
        const growing = new GrowingKinship(cut, undefined, options);
        const [first, last] = [group[0]!, group.at(-1)!];
        const expected = coancestry(whole, placeOf[first]!, placeOf[last]!);
        expect(growing.addSpawn(first, last, 3).inbreeding).toBeCloseTo(expected, digits);
        expect(coancestry(cut, first, last, options)).toBeCloseTo(expected, digits);
        for (const row of inbreedingByGeneration(cut, { ...options, fish: group })) {
          expect(row.mean * row.count).toBeCloseTo(
            sum(
              inbreedingByGeneration(whole, {
                fish: places,
                generation: wholeGenerations(cut, whole, placeOf),
              })
                .filter(({ generation }) => generation === row.generation)
                .map(({ mean, count }) => mean * count),
            ),
            digits - 1,
          );
        }
        const map = relationshipMap(cut, group, options);
        const at = map.order.map((fish) => group.indexOf(fish));
        expect(map.coancestry[1 % map.coancestry.length]).toBe(
          block[at[0]! * group.length + (at[1] ?? at[0]!)],
        );
      }),
      { seed, numRuns: 500 },
    );
    expect(related).toBeGreaterThan(200);
  });

  it('in the inverse: its product with A is the unit matrix', () => {
    fc.assert(
      fc.property(tellings(20), ({ cut, founders }) => {
        const { size } = cut;
        const a = tabularRelationship(cut, { founders });
        const { rows, columns, values } = relationshipInverse(cut, { founders });
        const product = new Float64Array(size * size);
        rows.forEach((i, k) => {
          for (let j = 0; j < size; j++) {
            product[i * size + j]! += values[k]! * a[columns[k]! * size + j]!;
          }
        });
        product.forEach((value, k) => expect(value).toBeCloseTo(k % (size + 1) === 0 ? 1 : 0, 7));
      }),
      { seed, numRuns: 500 },
    );
  });

  it('in paths: one through two founders adds what all through their ancestors add', () => {
    let throughTwo = 0;
    fc.assert(
      fc.property(tellings(16), ({ cut, founders, whole, placeOf }) => {
        const back = new Map(Array.from(placeOf, (place, i) => [place, i]));
        for (let fish = 0; fish < cut.size; fish++) {
          const own = inbreedingPathsOf(cut, fish, { founders, limit: Infinity });
          const listed = new Map(own.paths.map((path) => [keyOf(path.fish), path]));
          expect(listed.size).toBe(own.paths.length);
          expect(own.pathCount).toBe(own.paths.length);
          if (cut.sire[fish]! < 0 || cut.dam[fish]! < 0) continue;
          const expected = new Map<string, number>();
          for (const path of eachInbreedingPath(
            whole,
            whole.sire[placeOf[fish]!]!,
            whole.dam[placeOf[fish]!]!,
          )) {
            const key = keyOf(path.fish.flatMap((place) => back.get(place) ?? []));
            expected.set(key, (expected.get(key) ?? 0) + path.contribution);
          }
          expect([...listed.keys()].sort()).toEqual([...expected.keys()].sort());
          for (const [key, path] of listed) {
            expect(path.contribution).toBeCloseTo(expected.get(key)!, digits);
            checkShape(path);
            if (path.otherFounder !== null) throughTwo++;
          }
          expect(sum(own.paths.map((path) => path.contribution))).toBeCloseTo(
            own.coefficient,
            digits,
          );
          checkAncestors(own.paths, own.ancestors);
          for (let k = 1; k < own.paths.length; k++) {
            const more = own.paths[k - 1]!.contribution * (1 + 1e-12);
            expect(own.paths[k]!.contribution).toBeLessThanOrEqual(more);
          }
        }
      }),
      { seed, numRuns: 800 },
    );
    expect(throughTwo).toBeGreaterThan(800);
  });

  it('in parts of F: by founder, through ancestors, by origin, by age', () => {
    let between = 0;
    fc.assert(
      fc.property(tellings(18), ({ cut, founders, whole, placeOf }) => {
        const options = { founders };
        const fish = [...placeOf.keys()];
        const places = fish.map((i) => placeOf[i]!);
        const f = inbreedingCoefficients(whole);
        const parts = partialInbreedingByFounder(cut, fish, options);
        const width = parts.sources.length;
        const known = parts.sources.filter(({ unknownParent }) => !unknownParent);
        const through = partialInbreedingThrough(
          whole,
          places,
          known.map(({ founder }) => placeOf[founder]!),
        );
        const own = partialInbreedingThrough(cut, fish, fish, options);
        const wholeOwn = partialInbreedingThrough(whole, places, places);
        fish.forEach((i, row) => {
          known.forEach((source, column) => {
            expect(parts.values[row * width + parts.sources.indexOf(source)]).toBeCloseTo(
              through.values[row * known.length + column]!,
              digits,
            );
          });
          if (parts.betweenFounders[row]! > 0) between++;
          const total =
            sum(parts.values.subarray(row * width, (row + 1) * width)) +
            parts.betweenFounders[row]!;
          expect(total).toBeCloseTo(f[placeOf[i]!]!, digits);
          const origins = inbreedingOrigins(cut, i, options);
          const wholeOrigins = inbreedingOrigins(whole, placeOf[i]!).origins;
          const onRecord = new Map(origins.origins.map((o) => [placeOf[o.ancestor]!, o]));
          let older = 0;
          for (const origin of wholeOrigins) {
            if (!onRecord.has(origin.ancestor)) {
              older += origin.contribution;
              continue;
            }
            const { contribution, meanGenerations } = onRecord.get(origin.ancestor)!;
            expect(contribution).toBeCloseTo(origin.contribution, digits);
            expect(meanGenerations).toBeCloseTo(origin.meanGenerations, digits - 1);
          }
          expect(origins.beforeFounders).toBeCloseTo(older, digits);
          expect(origins.coefficient).toBeCloseTo(f[placeOf[i]!]!, digits);
          expect(inbreedingByAge(cut, i, options).at(-1)).toBeCloseTo(f[placeOf[i]!]!, digits);
        });
        own.values.forEach((value, k) => expect(value).toBeCloseTo(wholeOwn.values[k]!, digits));
        const plain = recentInbreeding(cut, fish, 2);
        recentInbreeding(cut, fish, 2, options).forEach(({ inbreeding, recent, old }, i) => {
          expect(inbreeding).toBeCloseTo(f[placeOf[i]!]!, digits);
          expect(recent).toBeCloseTo(plain[i]!.recent, digits);
          expect(old + recent).toBeCloseTo(inbreeding, digits);
        });
      }),
      { seed, numRuns: 400 },
    );
    expect(between).toBeGreaterThan(300);
  });

  it('in ancestral inbreeding, where the stand-ins are not inbred themselves', () => {
    let looked = 0;
    fc.assert(
      fc.property(tellings(25), ({ cut, founders, whole, placeOf, standInsNotInbred }) => {
        if (!standInsNotInbred) return;
        looked++;
        const expected = ancestralInbreeding(whole);
        ancestralInbreeding(cut, { founders }).forEach((value, i) =>
          expect(value).toBeCloseTo(expected[placeOf[i]!]!, digits),
        );
      }),
      { seed, numRuns: 500 },
    );
    expect(looked).toBeGreaterThan(100);
  });

  it('in gene drops, within six standard errors', () => {
    fc.assert(
      fc.property(tellings(14), fc.nat(999), ({ cut, founders }, dropSeed) => {
        const options = { founders };
        const fish = [...cut.sire.keys()];
        const drops = { ...options, seed: dropSeed, replicates: 2000 };
        const f = inbreedingCoefficients(cut, options);
        simulatedInbreeding(cut, fish, drops).forEach(({ value, standardError }, i) => {
          expect(Math.abs(value - f[i]!)).toBeLessThanOrEqual(6 * standardError + 2e-3);
        });
        const pairs = fish.map((i) => [i, fish.at(-1 - i)!] as const);
        simulatedCoancestry(cut, pairs, drops).forEach(({ value, standardError }, k) => {
          const [i, j] = pairs[k]!;
          const exact = coancestry(cut, i, j, options);
          expect(Math.abs(value - exact)).toBeLessThanOrEqual(6 * standardError + 2e-3);
        });
      }),
      { seed, numRuns: 40 },
    );
  });

  it('in groups of unknown parents too: paths and origins add up to F', () => {
    const theta = fc.double({ min: 0, max: 0.49, noNaN: true });
    fc.assert(
      fc.property(loopedPedigrees(14), theta, (pedigree, own) => {
        const group = new Int32Array(pedigree.size);
        const grouped = groupUnknownParents(pedigree, {
          sireGroup: group,
          damGroup: group,
          coancestry: [own],
          groups: 1,
        });
        const { pedigree: full, founders } = grouped;
        const f = inbreedingCoefficients(full, { founders });
        for (let fish = 1; fish < full.size; fish++) {
          const paths = inbreedingPathsOf(full, fish, { founders, limit: Infinity });
          expect(sum(paths.paths.map((path) => path.contribution))).toBeCloseTo(f[fish]!, digits);
          const origins = inbreedingOrigins(full, fish, { founders });
          expect(origins.coefficient).toBeCloseTo(f[fish]!, digits);
          expect(origins.origins.some(({ ancestor }) => ancestor === 0)).toBe(false);
        }
      }),
      { seed, numRuns: 300 },
    );
  });
});

describe('effective numbers with given coancestries', () => {
  const pedigree = pedigreeFromArrays(
    Int32Array.of(-1, -1, -1, 0, 0),
    Int32Array.of(-1, -1, -1, 1, 2),
  );
  const group = [3, 4];
  const sibs: FounderRelationship = { founders: [1, 2], coancestry: [0.5, 0.25, 0.25, 0.5] };
  const refused = (figure: () => unknown): string => {
    try {
      figure();
    } catch (error) {
      if (error instanceof KinshipError) return error.code;
      throw error;
    }
    return 'no error';
  };

  it('effective founders: the same fish entered twice counts once, and plain founders change nothing', () => {
    const shares = founderContributions(pedigree, group);
    expect(effectiveFounders(shares)).toBeCloseTo(1 / (0.25 + 2 / 16), 12);
    const same = { founders: [1, 2], coancestry: [0.5, 0.5, 0.5, 0.5] };
    expect(effectiveFounders(shares, { founders: same })).toBeCloseTo(1 / (0.25 + 0.25), 12);
    const plain = { founders: [0, 1, 2], coancestry: [0.5, 0, 0, 0, 0.5, 0, 0, 0, 0.5] };
    expect(effectiveFounders(shares, { founders: plain })).toBeCloseTo(
      effectiveFounders(shares),
      12,
    );
    // Full sibs: between the two.
    expect(effectiveFounders(shares, { founders: sibs })).toBeCloseTo(1 / (0.25 + 3 / 16), 12);
  });

  it('figures without a meaning then are refused by name, and not when nothing special is given', () => {
    const drops = { seed: 1, replicates: 10 };
    const figures: ((founders: FounderRelationship) => unknown)[] = [
      (founders) => effectiveAncestors(pedigree, group, { founders }),
      (founders) => founderGenomeEquivalents(pedigree, group, { seed: 1, founders }),
      (founders) => realisedEffectiveSize(pedigree, group, { founders }),
      (founders) => simulatedAncestralInbreeding(pedigree, group, { ...drops, founders }),
    ];
    for (const figure of figures) {
      expect(refused(() => figure(sibs))).toBe('KINSHIP_RELATED_FOUNDERS');
      expect(refused(() => figure({ founders: [1], coancestry: [0.75] }))).toBe(
        'KINSHIP_RELATED_FOUNDERS',
      );
      expect(refused(() => figure({ founders: [1, 2], coancestry: [0.5, 0, 0, 0.5] }))).toBe(
        'no error',
      );
    }
  });

  it('line health takes them where it can and leaves the others blank', () => {
    const plain = lineHealth({ pedigree, inUse: group, seed: 1 });
    const health = lineHealth({ pedigree, inUse: group, seed: 1, founders: sibs });
    expect(health.meanKinship.value).toBeCloseTo(plain.meanKinship.value! + 0.25 / 8, 12);
    expect(health.effective.founders.value).toBeCloseTo(1 / (0.25 + 3 / 16), 12);
    expect(health.effective.genomesByKinship.value).toBeLessThan(
      plain.effective.genomesByKinship.value!,
    );
    for (const figure of ['ancestors', 'genomesByRetention', 'sizeFromInbreeding'] as const) {
      expect(health.effective[figure].value).toBeNull();
    }
    // By hand: shares 1/2, 1/4, 1/4; of founder 0, with two young, 3/4 of the genes are left, of the others 1/2 (Lacy 1989).
    expect(plain.effective.ancestors.value).toBeCloseTo(8 / 3, 12);
    expect(plain.effective.genomesByRetention.value).toBeCloseTo(12 / 7, 12);
    expect(health.founders).toEqual(plain.founders);
  });

  it('line health tells no size from a rise of F then, and tells it otherwise', () => {
    const deeper = pedigreeFromArrays(
      Int32Array.of(-1, -1, -1, 0, 0, 3),
      Int32Array.of(-1, -1, -1, 1, 2, 4),
    );
    // A young of half sibs has F 1/8 (Wright 1922) after one generation in which F could rise: 1 / (2 x 1/8).
    const plain = lineHealth({ pedigree: deeper, inUse: [5], seed: 1 });
    expect(plain.effective.sizeFromInbreeding.value).toBeCloseTo(4, 12);
    const related = lineHealth({ pedigree: deeper, inUse: [5], seed: 1, founders: sibs });
    expect(related.effective.sizeFromInbreeding.value).toBeNull();
  });

  it('founders more alike than either is with itself are refused', () => {
    const impossible = { founders: [1, 2], coancestry: [0.5, 0.6, 0.6, 0.5] };
    expect(refused(() => inbreedingCoefficients(pedigree, { founders: impossible }))).toBe(
      'KINSHIP_IMPOSSIBLE_FOUNDERS',
    );
  });

  it('a founder with less coancestry with itself than a fish that is not inbred has is refused by name', () => {
    const odd = { founders: [1], coancestry: [0.3] };
    expect(() => inbreedingCoefficients(pedigree, { founders: odd })).toThrow(
      /Founder "1" has coancestry 0\.3 with itself, which gives F = -0\.4.*give 0\.5/,
    );
  });

  it('founders each possible in pairs but not all three together are refused', () => {
    // 0 and 1 all but the same fish, 1 and 2 too, and yet 0 and 2 unrelated: determinant 0.5 (0.25 - 2 x 0.16) < 0.
    const given = [0.5, 0.4, 0, 0.4, 0.5, 0.4, 0, 0.4, 0.5];
    const odd = { founders: [0, 1, 2], coancestry: given };
    expect(refused(() => inbreedingCoefficients(pedigree, { founders: odd }))).toBe(
      'KINSHIP_IMPOSSIBLE_FOUNDERS',
    );
    expect(() => coancestry(pedigree, 3, 4, { founders: odd })).toThrow(/0\.4 with "1"/);
    const twins = [0.5, 0.5, 0, 0.5, 0.5, 0, 0, 0, 0.5];
    const possible = { founders: [0, 1, 2], coancestry: twins };
    expect(refused(() => inbreedingCoefficients(pedigree, { founders: possible }))).toBe(
      'no error',
    );
  });

  it('the matrix of any real pedigree passes, however many of its fish are alike', () => {
    fc.assert(
      fc.property(tellings(40), ({ cut, founders }) => {
        expect(refused(() => inbreedingCoefficients(cut, { founders }))).toBe('no error');
      }),
      { seed, numRuns: 300 },
    );
  });
});

const keyOf = (fish: readonly number[]): string => fish.join(' ');

/** Generations of the cut pedigree, for the fish of the whole one. */
function wholeGenerations(cut: Pedigree, whole: Pedigree, placeOf: Int32Array): Int32Array {
  const generation = new Int32Array(whole.size);
  for (let i = 0; i < cut.size; i++) {
    const above = (parent: number) => (parent < 0 ? -1 : generation[placeOf[parent]!]!);
    generation[placeOf[i]!] = 1 + Math.max(above(cut.sire[i]!), above(cut.dam[i]!));
  }
  return generation;
}

function checkShape(path: InbreedingPath): void {
  const two = path.otherFounder !== null;
  expect(path.fish.length).toBe(path.sireSteps + path.damSteps + (two ? 2 : 1));
  expect(path.fish[path.sireSteps]).toBe(path.ancestor);
  if (two) expect(path.fish[path.sireSteps + 1]).toBe(path.otherFounder);
}

function checkAncestors(
  paths: readonly InbreedingPath[],
  ancestors: ReturnType<typeof inbreedingPathsOf>['ancestors'],
): void {
  for (const entry of ancestors) {
    const own = paths.filter(
      ({ ancestor, otherFounder }) =>
        (ancestor === entry.ancestor && otherFounder === entry.otherFounder) ||
        (ancestor === entry.otherFounder && otherFounder === entry.ancestor),
    );
    expect(entry.pathCount).toBe(own.length);
    expect(entry.contribution).toBeCloseTo(sum(own.map((path) => path.contribution)), digits);
  }
  expect(sum(ancestors.map(({ pathCount }) => pathCount ?? NaN))).toBe(paths.length);
}
