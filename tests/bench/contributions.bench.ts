import { performance } from 'node:perf_hooks';
import { coancestryBlock } from '@linewright/kinship';
import {
  bestContributions,
  contributionFrontier,
  leastCoancestry,
  type ContributionProblem,
} from '@linewright/mating';
import { pedigreeFromArrays, seededChance } from '@linewright/pedigree';

/** The last of `generations` of `each` fish in `broods` broods, half of them male; parents mate as it comes. */
function lastGeneration(each: number, generations: number, broods: number): ContributionProblem {
  const random = seededChance(11);
  const spread = (): number => random() + random() + random() - 1.5;
  const size = each * (generations + 1);
  const sire = new Int32Array(size).fill(-1);
  const dam = new Int32Array(size).fill(-1);
  const worth = Float64Array.from({ length: size }, spread);
  for (let first = each; first < size; first += each) {
    const anyOf = (sex: number): number =>
      first - each + 2 * Math.floor((random() * each) / 2) + sex;
    const pairs = Array.from({ length: broods }, () => [anyOf(0), anyOf(1)] as const);
    for (let k = 0; k < each; k++) {
      const [father, mother] = pairs[Math.floor((k / each) * broods)]!;
      sire[first + k] = father;
      dam[first + k] = mother;
      worth[first + k] = (worth[father]! + worth[mother]!) / 2 + 0.7 * spread();
    }
  }
  const places = Int32Array.from({ length: each }, (_, k) => size - each + k);
  return {
    ids: Array.from(places, String),
    value: Float64Array.from(places, (i) => worth[i]!),
    coancestry: coancestryBlock(pedigreeFromArrays(sire, dam), places, places),
    group: places.map((i) => i % 2),
    totals: [0.5, 0.5],
  };
}

export async function run(emit: (line: object) => void): Promise<void> {
  for (const [candidates, generations, broods] of [
    [400, 10, 40],
    [2_000, 8, 60],
  ] as const) {
    const problem = lastGeneration(candidates, generations, broods);
    const measure = <T>(what: string, work: () => T): T => {
      const start = performance.now();
      const result = work();
      const ms = Math.round(performance.now() - start);
      emit({ bench: 'contributions', what, seed: 11, candidates, ms });
      return result;
    };
    const least = measure('least coancestry', () => leastCoancestry(problem));
    measure('best, coancestry 0.01 above the least', () =>
      bestContributions(problem, least.coancestry + 0.01),
    );
    // Of the larger one the first hundred corners.
    let corners = 0;
    measure(candidates > 1_000 ? 'first 100 corners of the frontier' : 'whole frontier', () =>
      contributionFrontier(problem, () => ++corners < 100 || candidates <= 1_000),
    );
    await Promise.resolve();
  }
}
