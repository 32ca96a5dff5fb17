import type { BreedingValue, TraitBasis } from '@linewright/mating';
import type { ModelAnswer } from '../merit/merit-answer.js';
import { meanLooks } from '../merit/scores-of-task.js';
import type { TraitStock } from '../merit/trait-records.service.js';

/** Fewer scored fish of a line than this do not tell where it stands: then all scored fish do. */
const LEAST_OF_LINE = 5;
/** What all young of a brood share without inheriting it. */
const SHARED_BY_BROOD = ['brood', 'place'];

/** A trait's variances, and where a line stands, from what was worked out of its scores. */
export const traitBasisOf = (
  { trait, task, facts, pedigree }: TraitStock,
  { shares, variance, values }: ModelAnswer,
  lineId: string | null,
): TraitBasis => {
  const score = meanLooks(task);
  const scored = [...new Set(task.fish)];
  const ofLine = scored.filter((i) => facts.get(pedigree.ids[i]!)?.lineId === lineId);
  const fish = ofLine.length >= LEAST_OF_LINE ? ofLine : scored;
  const mean = meanOf(fish.map((i) => score[i]!));
  const shared = shares.others
    .filter(({ name }) => SHARED_BY_BROOD.includes(name))
    .reduce((sum, { share }) => sum + share, 0);
  return {
    traitId: trait.id,
    level: mean - meanOf(fish.map((i) => values.value[i]!)),
    additive: variance * shares.heritability,
    commonBrood: variance * shared,
    residual: variance * Math.max(0, 1 - shares.heritability - shared),
    line: { mean, deviation: Math.sqrt(meanOf(fish.map((i) => (score[i]! - mean) ** 2))) },
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

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
