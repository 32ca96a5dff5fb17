import { performance } from 'node:perf_hooks';
import {
  eachInbreedingPath,
  inbreedingOrigins,
  inbreedingPaths,
  lineHealth,
  partialInbreedingByFounder,
  relationshipMap,
  simulatedRetention,
} from '@linewright/kinship';
import { pedigreeFromArrays, RandomBits, type Pedigree } from '@linewright/pedigree';

/**
 * `pairs` pairs a generation, each with a spawn of `young`, from `2 x pairs` founders; parents are drawn from the young of the
 * generation before, males at even places. The last generation is the fish in use.
 */
function line(
  pairs: number,
  young: number,
  generations: number,
  seed: number,
): { pedigree: Pedigree; last: number[] } {
  const bits = new RandomBits(seed);
  const below = (count: number): number => Math.floor(bits.uniform() * count);
  const each = pairs * young;
  const size = 2 * pairs + each * generations;
  const sire = new Int32Array(size).fill(-1);
  const dam = new Int32Array(size).fill(-1);
  let first = 0;
  let count = 2 * pairs;
  let next = count;
  for (let generation = 0; generation < generations; generation++) {
    for (let pair = 0; pair < pairs; pair++) {
      const male = first + 2 * below(count >> 1);
      const female = first + 2 * below(count >> 1) + 1;
      for (let k = 0; k < young; k++, next++) {
        sire[next] = male;
        dam[next] = female;
      }
    }
    first = next - each;
    count = each;
  }
  return {
    pedigree: pedigreeFromArrays(sire, dam),
    last: Array.from({ length: each }, (_, k) => first + k),
  };
}

const shapes = [
  { shape: 'few pairs, big spawns', pairs: 4, young: 100, generations: 25, seed: 11 },
  { shape: 'many pairs, small spawns', pairs: 80, young: 4, generations: 30, seed: 12 },
  { shape: 'sib mating', pairs: 1, young: 2, generations: 200, seed: 13 },
];

function timed<T>(action: () => T): { ms: number; result: T } {
  const start = performance.now();
  const result = action();
  return { ms: Number((performance.now() - start).toFixed(2)), result };
}

export async function run(emit: (line: object) => void): Promise<void> {
  for (const { shape, pairs, young, generations, seed } of shapes) {
    const fresh = (): ReturnType<typeof line> => line(pairs, young, generations, seed);
    const { pedigree, last } = fresh();
    const about = { shape, fish: pedigree.size, inUse: last.length, seed };
    const health = timed(() => lineHealth({ ...fresh(), inUse: last, seed }));
    emit({
      bench: 'line health',
      ...about,
      ms: health.ms,
      meanF: health.result.inbreeding.value,
      retentionExact: health.result.effective.genomesByRetention.standardError === null,
    });
    const sire = last[0]!;
    const dam = last.at(-1)!;
    const paths = timed(() => inbreedingPaths(pedigree, sire, dam));
    emit({
      bench: 'paths of a pair, best 100',
      ...about,
      ms: paths.ms,
      pathCount: paths.result.pathCount,
      listed: paths.result.paths.length,
      explained: paths.result.explained,
    });
    const lazily = timed(() => {
      let listed = 0;
      for (const path of eachInbreedingPath(pedigree, sire, dam)) {
        if (path.contribution === 0 || ++listed === 10_000) break;
      }
      return listed;
    });
    emit({ bench: 'paths of a pair, best 10,000', ...about, ms: lazily.ms, listed: lazily.result });
    const origins = timed(() => inbreedingOrigins(pedigree, dam));
    emit({
      bench: 'origins of the F of a fish',
      ...about,
      ms: origins.ms,
      origins: origins.result.origins.length,
    });
    const partial = timed(() => partialInbreedingByFounder(pedigree, last));
    emit({
      bench: 'partial inbreeding by founder of the fish in use',
      ...about,
      ms: partial.ms,
      founders: partial.result.sources.length,
    });
    const drops = timed(() => simulatedRetention(pedigree, last, { seed, replicates: 1000 }));
    emit({ bench: '1,000 gene drops, all founders', ...about, ms: drops.ms });
    const some = last.slice(0, 400);
    const map = timed(() => relationshipMap(pedigree, some));
    emit({
      bench: 'relationship map',
      ...about,
      mapped: some.length,
      ms: map.ms,
      families: map.result.families.length,
    });
  }
  await Promise.resolve();
}
