import type { TraitBasis } from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { TraitBeliefsService } from '../merit/trait-beliefs.service.js';

/** Fish that could be parents of which it is worked out: a solution for each, and a square table, is sent between threads. */
const MOST_FISH = 80;

/** How the errors of the values of fish that could be pairs go together. */
@Injectable()
export class ErrorsTogetherService {
  constructor(private readonly beliefs: TraitBeliefsService) {}

  /** The same traits, with how the errors of these fish go together; as they are where there are too many fish, or it is not known. */
  async in(
    traits: readonly TraitBasis[],
    lineId: string | null,
    fish: readonly string[],
    by: string,
  ): Promise<TraitBasis[]> {
    if (lineId === null || fish.length > MOST_FISH) return [...traits];
    const answers = await this.beliefs.ofAll(
      traits.map(({ traitId }) => traitId),
      { lineId, fishIds: fish, by },
    );
    return traits.map((trait, k) => {
      const belief = answers[k]?.belief ?? null;
      if (belief === null) return trait;
      return { ...trait, errorsTogether: { fish, correlation: correlations(belief.error) } };
    });
  }
}

const correlations = (covariance: Float64Array): Float64Array => {
  const count = Math.sqrt(covariance.length);
  const deviation = Float64Array.from({ length: count }, (_, i) =>
    Math.sqrt(covariance[i * count + i]!),
  );
  return covariance.map((each, cell) => {
    const both = deviation[Math.floor(cell / count)]! * deviation[cell % count]!;
    return both > 0 ? each / both : 0;
  });
};
