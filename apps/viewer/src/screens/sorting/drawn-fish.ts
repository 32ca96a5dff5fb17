import type { BenchFish } from './bench-facts.js';

interface Draw {
  readonly fish: readonly { readonly id: string }[];
}

export interface DrawnFish {
  readonly fish: BenchFish;
  /** Scored on every trait that says something at its age. */
  readonly scored: boolean;
}

/** The fish of a brood that chance chose, as they are on this device. */
export function drawnFish(
  draws: readonly Draw[],
  fish: readonly BenchFish[],
  traitsOf: (fish: BenchFish) => readonly { readonly id: string }[],
): DrawnFish[] {
  const here = new Map(fish.map((each) => [each.id, each]));
  return draws
    .flatMap(({ fish: chosen }) => chosen)
    .flatMap(({ id }) => {
      const one = here.get(id);
      return one === undefined
        ? []
        : [{ fish: one, scored: traitsOf(one).every((trait) => one.scores.has(trait.id)) }];
    });
}

/** How many can be drawn: none once one that was not drawn is decided about, for what is left then is no random part. */
export function leftToDraw(draws: readonly Draw[], fish: readonly BenchFish[]): number {
  const drawn = new Set(draws.flatMap(({ fish: chosen }) => chosen.map(({ id }) => id)));
  const others = fish.filter(({ id }) => !drawn.has(id));
  const decided = ['KEEPER', 'HOLD', 'CULLED'];
  if (others.some(({ disposition }) => decided.includes(disposition))) return 0;
  return others.filter(({ disposition }) => disposition === 'UNSORTED').length;
}
