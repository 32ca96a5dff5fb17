import { dateOf } from './calendar.js';
import { LINES } from './line-plans.js';
import type { RandomSource } from './random-source.js';
import type { DemoScenario } from './scenario.js';
import { type DemoLocus, doses, type SimulatedFish } from './simulated-fish.js';

/** Ids in the catalogue of what is seen with 0, 1 and 2 doses of the second allele. */
export const SEEN: Readonly<Record<DemoLocus, readonly [string, string, string]>> = {
  bl: ['turquoise', 'royal', 'steel'],
  m: ['ordinary', 'ordinary', 'melano'],
  c: ['dark', 'dark', 'cambodian'],
  dt: ['single', 'single', 'double'],
};

const LOOKED_AT_DAYS = 112;

const settings: readonly (readonly [DemoLocus | 'al', Readonly<Record<string, number>>])[] = [
  ['dt', { single: 0.9, double: 0.1 }],
  ['m', { ordinary: 0.9, melano: 0.1 }],
  ['al', { pigmented: 0.998, albino: 0.002 }],
];

/**
 * What the two people wrote down on seeing kept and bred fish grown, at the loci their line follows, and one slip: a fish out
 * of a steel parent put down as turquoise, which its parentage rules out.
 */
export function seenPhenotypes(
  fish: readonly SimulatedFish[],
  today: number,
  ids: RandomSource,
): Pick<DemoScenario, 'phenotypes' | 'locusSettings'> {
  const grown = fish.filter(
    (one) =>
      (one.disposition === 'keeper' || Number.isFinite(one.lastSpawnDay)) &&
      (one.spawnId === null || one.hatchDay + LOOKED_AT_DAYS <= today),
  );
  const slip = grown.find(
    (one) =>
      one.disposition === 'keeper' &&
      doses(one, 'bl') === 1 &&
      [one.sire, one.dam].some((parent) => parent !== null && doses(parent, 'bl') === 2),
  );
  const phenotypes = grown.flatMap((one) =>
    (LINES[one.line]?.loci ?? []).map((locus) => {
      const wrong = one === slip && locus === 'bl';
      return {
        id: ids.uuid(),
        fishId: one.id,
        locusId: locus,
        phenotype: wrong ? 'turquoise' : SEEN[locus][doses(one, locus)],
        seenOn: dateOf(Math.min(one.hatchDay + LOOKED_AT_DAYS, today)),
        ageDays: one.spawnId === null ? null : LOOKED_AT_DAYS,
        note: wrong ? 'looked at under a lamp in the evening' : null,
      };
    }),
  );
  return {
    phenotypes,
    locusSettings: settings.map(([locusId, frequencies]) => ({
      id: ids.uuid(),
      lineId: null,
      locusId,
      frequencies,
      misScoring: null,
    })),
  };
}
