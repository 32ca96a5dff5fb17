import { planned, type Strategy } from '../forecast/strategies.js';
import type { OutcrossFish } from './outcross-fish.js';

/** Mean coancestry of some fish, each with itself included. */
const meanKinship = (coancestry: Float64Array, size: number, fish: readonly number[]): number => {
  let sum = 0;
  for (const a of fish) for (const b of fish) sum += coancestry[a * size + b]!;
  return sum / fish.length ** 2;
};

/**
 * The plan of a line, but one brood of the first generation is the outcross; its young then stand beside all others as candidates. Kinship may
 * rise as it may without the outcross: from that of the line's own fish. Make one for each simulated line.
 *
 * With a single brood a generation the outcross is the whole first generation.
 */
export function plannedWithOutcross(
  { partner, mate }: Pick<OutcrossFish, 'partner' | 'mate'>,
  { coancestry, fish }: { readonly coancestry: Float64Array; readonly fish: readonly string[] },
  kinshipRise: number | null,
): Strategy {
  const line = fish.map((_, k) => k).filter((k) => k !== partner);
  const start = meanKinship(coancestry, fish.length, line);
  let generation = 0;
  return (choice) => {
    generation++;
    const limit = kinshipRise === null ? null : 1 - (1 - start) * (1 - kinshipRise) ** generation;
    if (generation > 1) return planned({ ...choice, kinshipLimit: limit });
    const cross = choice.males.includes(partner)
      ? ([partner, mate] as const)
      : ([mate, partner] as const);
    if (choice.broods === 1) return [cross];
    const own = (list: readonly number[]): number[] => list.filter((one) => one !== partner);
    const others = planned({
      ...choice,
      males: own(choice.males),
      females: own(choice.females),
      bestOfBroods: () => own(choice.bestOfBroods()),
      broods: choice.broods - 1,
      kinshipLimit: limit,
    });
    return [...others, cross];
  };
}
