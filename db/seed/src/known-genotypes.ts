import type { History } from './history.js';
import { LINES } from './line-plans.js';
import type { RandomSource } from './random-source.js';
import type { DemoGenotype } from './scenario.js';
import {
  type DemoLocus,
  type SimulatedFish,
  SYMBOLS,
  doses,
  genotypeText,
} from './simulated-fish.js';

type Knowledge = Pick<DemoGenotype, 'basis' | 'note'>;

/**
 * What the two people can know of the true genotypes, and why: what is seen, what the parents leave no choice about, what a
 * brood has shown. A possible carrier that nothing has settled gets none.
 */
export function knownGenotypes(
  fish: readonly SimulatedFish[],
  history: History,
  ids: RandomSource,
): DemoGenotype[] {
  const written = fish.filter(
    (one) =>
      Number.isFinite(one.lastSpawnDay) ||
      one.disposition === 'keeper' ||
      one.disposition === 'hold',
  );
  return written.flatMap((one) =>
    lociOf(one, fish).flatMap((locus) => {
      const knowledge = knowledgeOf(one, locus, history);
      const genotype = genotypeText(one, locus);
      return knowledge
        ? [{ id: ids.uuid(), fishId: one.id, locusId: locus, genotype, ...knowledge }]
        : [];
    }),
  );
}

/** The loci its own line follows, and those of lines it was mated into. */
function lociOf(one: SimulatedFish, fish: readonly SimulatedFish[]): DemoLocus[] {
  const lines = new Set([one.line]);
  for (const young of fish) if (young.sire === one || young.dam === one) lines.add(young.line);
  const followed = [...lines].flatMap((line) => LINES[line]?.loci ?? []);
  return (Object.keys(SYMBOLS) as DemoLocus[]).filter((locus) => followed.includes(locus));
}

function knowledgeOf(one: SimulatedFish, locus: DemoLocus, history: History): Knowledge | null {
  const dose = doses(one, locus);
  if (locus === 'bl') return { basis: 'assumed', note: 'seen in its colour' };
  if (dose === 2) return { basis: 'assumed', note: 'seen' };
  if (dose === 0) return knownFree(one, locus) ? freeBy(one) : null;
  if (one.sire && one.dam && (doses(one.sire, locus) === 2 || doses(one.dam, locus) === 2)) {
    return { basis: 'parents', note: 'one parent shows it' };
  }
  if (!history.proven.get(one)?.has(locus) && !provenByGrandyoung(one, locus, history)) return null;
  return history.tested.has(one)
    ? { basis: 'test_mating', note: 'the test brood showed it' }
    : { basis: 'progeny', note: 'its young showed it' };
}

/** A bought carrier whose mate was free: what a child was proven to carry came from it. */
function provenByGrandyoung(one: SimulatedFish, locus: DemoLocus, history: History): boolean {
  if (one.sire) return false;
  return [...history.proven].some(
    ([child, loci]) => loci.has(locus) && (child.sire === one || child.dam === one),
  );
}

/** Nothing but free ancestors, as far as they were assumed free when bought. */
function knownFree(one: SimulatedFish, locus: DemoLocus): boolean {
  if (doses(one, locus) !== 0) return false;
  if (!one.sire || !one.dam) return true;
  return knownFree(one.sire, locus) && knownFree(one.dam, locus);
}

function freeBy(one: SimulatedFish): Knowledge {
  return one.sire
    ? { basis: 'parents', note: 'no ancestor shows or carries it' }
    : { basis: 'assumed', note: 'no sign of it when bought' };
}
