import { MeritError } from '../merit-error.js';

const expectDesign = (heritability: number, perBrood: number): void => {
  if (!(heritability >= 0 && heritability <= 1 && perBrood >= 2))
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      `A heritability of ${heritability} with ${perBrood} scored of each brood cannot be planned for: it lies between 0 and 1, and a brood needs two scored fish.`,
      { heritability, perBrood },
    );
};

/**
 * How well scoring broods of unrelated pairs, so many of each, would tell the heritability: its standard error as twice that of the
 * correlation between full sibs.
 *
 * At best: sibs share half of what is inherited (half the heritability is their correlation) and nothing else, the fish are scored before
 * sorting, and no prior helps. Source: Fisher's variance of the intraclass correlation, as in Falconer & Mackay (1996), chapter 10 (from
 * memory; the test beside it simulates broods).
 *
 * @throws MeritError MERIT_OUT_OF_RANGE. Cost: constant.
 * @example heritabilityError(0.3, 25, 12) // 0.113
 */
export function heritabilityError(heritability: number, broods: number, perBrood: number): number {
  expectDesign(heritability, perBrood);
  const t = heritability / 2;
  const squares = perBrood * (perBrood - 1) * (broods - 1);
  return broods < 2
    ? Infinity
    : (2 * Math.SQRT2 * (1 - t) * (1 + (perBrood - 1) * t)) / Math.sqrt(squares);
}

/** Broods of unrelated pairs to score, so many of each, for a standard error of the heritability no larger than wanted. */
export function broodsForError(heritability: number, perBrood: number, wanted: number): number {
  expectDesign(heritability, perBrood);
  if (!(wanted > 0))
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      `Give a standard error above 0 in place of ${wanted}.`,
      {
        wanted,
      },
    );
  return Math.ceil(1 + (heritabilityError(heritability, 2, perBrood) / wanted) ** 2);
}
