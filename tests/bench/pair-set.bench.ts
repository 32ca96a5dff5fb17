import { performance } from 'node:perf_hooks';
import { coancestryBlock } from '@linewright/kinship';
import { PairChooser, type PairProblem } from '@linewright/mating';
import { pedigreeFromArrays, seededChance } from '@linewright/pedigree';
import loadHighs from 'highs';

/** Candidates of the last of some generations of a line, with worths of pairs that rest on both fish and on the F of the brood. */
function pairProblem(each: number, broods: number, mostPerFish: number): PairProblem {
  const random = seededChance(29);
  const spread = (): number => random() + random() + random() - 1.5;
  const generations = 8;
  const perGeneration = 2 * each;
  const size = perGeneration * (generations + 1);
  const sire = new Int32Array(size).fill(-1);
  const dam = new Int32Array(size).fill(-1);
  const value = Float64Array.from({ length: size }, spread);
  for (let first = perGeneration; first < size; first += perGeneration) {
    const anyOf = (sex: number): number =>
      first - perGeneration + 2 * Math.floor(random() * each) + sex;
    const pairs = Array.from({ length: 30 }, () => [anyOf(0), anyOf(1)] as const);
    for (let k = 0; k < perGeneration; k++) {
      const [father, mother] = pairs[Math.floor((k / perGeneration) * pairs.length)]!;
      sire[first + k] = father;
      dam[first + k] = mother;
      value[first + k] = (value[father]! + value[mother]!) / 2 + 0.7 * spread();
    }
  }
  const last = size - perGeneration;
  const of = (sex: number): number[] => Array.from({ length: each }, (_, k) => last + 2 * k + sex);
  const [males, females] = [of(0), of(1)];
  const places = Int32Array.from([...males, ...females]);
  const coancestry = coancestryBlock(pedigreeFromArrays(sire, dam), places, places);
  const worth = Float64Array.from({ length: each * each }, (_, cell) => {
    const [m, f] = [Math.floor(cell / each), cell % each];
    const inbreeding = coancestry[m * 2 * each + each + f]!;
    return 10 + 2 * (value[males[m]!]! + value[females[f]!]!) - 8 * inbreeding;
  });
  return {
    males: males.map(String),
    females: females.map(String),
    worth,
    coancestry,
    broods,
    mostPerFish,
    ceiling: 0.25,
  };
}

/** For one question. */
const SECONDS = 20;

export async function run(emit: (line: object) => void): Promise<void> {
  const highs = await (loadHighs as unknown as typeof import('highs').default)();
  for (const [each, broods, mostPerFish] of [
    [30, 5, 2],
    [200, 20, 2],
    [200, 20, 4],
  ] as const) {
    const problem = pairProblem(each, broods, mostPerFish);
    const measure = <T>(what: string, work: () => T, told: (result: T) => object): T => {
      const [start, used] = [performance.now(), process.cpuUsage()];
      const result = work();
      const { user } = process.cpuUsage(used);
      emit({
        bench: 'pair-set',
        what,
        seed: 29,
        candidates: `${each} x ${each}`,
        broods,
        mostPerFish,
        ms: Math.round(performance.now() - start),
        processorMs: Math.round(user / 1000),
        ...told(result),
      });
      return result;
    };
    const gap = 0.005;
    // What takes longer is told with the gap that is open then, as to somebody who waits.
    const within = (seconds: number) => {
      const end = performance.now() + seconds * 1000;
      return { gap, secondsLeft: () => (end - performance.now()) / 1000 };
    };
    const chooser = new PairChooser(highs, problem);
    const gapOf = ({ worth, bound }: { worth: number; bound: number }): object => ({
      provenGap: Number(((bound - worth) / Math.abs(bound)).toFixed(5)),
    });
    const free = measure('most worth, no limit', () => chooser.best(null, within(SECONDS)), gapOf);
    const least = measure(
      'least coancestry',
      () => chooser.leastRelated(within(SECONDS)),
      ({ coancestry, leastCoancestry }) => ({
        provenGap: Number(((coancestry - leastCoancestry!) / coancestry).toFixed(5)),
      }),
    );
    for (const share of [0.1, 0.3, 0.5, 0.7]) {
      const limit = least.coancestry + share * (free.coancestry - least.coancestry);
      const what = `most worth, limit ${share} of the way`;
      measure(what, () => new PairChooser(highs, problem).best(limit, within(SECONDS)), gapOf);
    }
  }
}
