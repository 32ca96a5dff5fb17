import type { RandomSource } from './random-source.js';

/** How many lived at each stage. Every drop between two stages is a loss or a cull with a reason. */
export interface BroodNumbers {
  readonly eggs: number;
  readonly hatched: number;
  readonly freeSwimming: number;
  readonly twoWeeks: number;
  /** Culled for build between two weeks and jarring. */
  readonly structuralCull: number;
  readonly jarred: number;
}

/**
 * Numbers within the planning ranges breeders give (egg to hatch 0.5-0.95, hatch to two weeks 0.3-0.9, two weeks to jar
 * 0.7-0.95: common practice, no source). They fall with the brood's inbreeding by amounts invented for the demo.
 */
export function broodNumbers(inbreeding: number, random: RandomSource): BroodNumbers {
  const eggs = random.whole(90, 210);
  const hatched = Math.round(eggs * (random.between(0.7, 0.93) - 0.25 * inbreeding));
  const freeSwimming = Math.round(hatched * random.between(0.9, 0.98));
  const twoWeeks = Math.round(hatched * (random.between(0.5, 0.82) - 0.25 * inbreeding));
  const structuralCull = Math.round(twoWeeks * (random.between(0.02, 0.06) + 0.12 * inbreeding));
  const jarred = Math.round(twoWeeks * random.between(0.84, 0.94)) - structuralCull;
  return { eggs, hatched, freeSwimming, twoWeeks, structuralCull, jarred };
}

/** What happens to a brood, in days after hatching. */
export interface BroodDays {
  readonly spawn: number;
  readonly hatch: number;
  readonly freeSwimming: number;
  readonly twoWeeks: number;
  readonly firstCull: number;
  readonly jar: number;
  readonly classCount: number;
  readonly secondCull: number;
  readonly sort: number;
  readonly place: number;
}

export function broodDays(hatch: number, random: RandomSource): BroodDays {
  return {
    spawn: hatch - 2,
    hatch,
    freeSwimming: hatch + 3,
    twoWeeks: hatch + 14,
    firstCull: hatch + random.whole(30, 38),
    jar: hatch + random.whole(48, 58),
    classCount: hatch + 86,
    secondCull: hatch + 90,
    sort: hatch + random.whole(118, 126),
    place: hatch + random.whole(140, 170),
  };
}
