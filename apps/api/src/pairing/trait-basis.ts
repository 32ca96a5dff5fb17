import type { BreedingValue, TraitBasis } from '@linewright/mating';
import type { ModelAnswer } from '../merit/merit-answer.js';
import { meanLooks } from '../merit/scores-of-task.js';
import { fishOfLevel, meanOf, traitFigures } from '../merit/trait-figures.js';
import type { TraitStock } from '../merit/trait-records.service.js';

/** A trait's variances, and where a line stands, from what was worked out of its scores. */
export const traitBasisOf = (
  stock: TraitStock,
  model: ModelAnswer,
  lineId: string | null,
): TraitBasis => {
  const { trait, task } = stock;
  const fish = fishOfLevel(stock, lineId);
  const score = meanLooks(task);
  const scores = fish.map((i) => score[i]!);
  const mean = meanOf(scores);
  return {
    traitId: trait.id,
    ...traitFigures(task, model, (i) => model.values.value[i]!, fish),
    line: { mean, deviation: Math.sqrt(meanOf(scores.map((one) => (one - mean) ** 2))) },
    ...(trait.kind !== 'measured' && { step: 1 }),
  };
};

/** A fish's value out of the same answer; none of a fish that came later. */
export const valueOf = (
  { pedigree }: TraitStock,
  { values }: ModelAnswer,
  fishId: string,
): BreedingValue | null => {
  if (!pedigree.has(fishId)) return null;
  const i = pedigree.indexOf(fishId);
  return { value: values.value[i]!, standardError: values.standardError[i]! };
};
