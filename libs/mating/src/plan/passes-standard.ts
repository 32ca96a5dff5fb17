import type { LinePurpose } from '../purpose/line-purpose.js';
import { passesAim } from '../simulated/fish-judge.js';

/** What was seen of a young fish. */
export interface SeenYoung {
  /** Latest score by trait. */
  readonly scores: ReadonlyMap<string, number>;
  /** What was seen last, by locus. */
  readonly looks: ReadonlyMap<string, string>;
}

/**
 * Whether a young fish passes what a line asks for: the limits of all traits that have any, each look that is required, and none that must
 * not be. `null`: nothing that was seen speaks against it, and something that counts was not looked at.
 */
export function passesStandard(
  { scores, looks }: SeenYoung,
  { traits, looks: aims }: Pick<LinePurpose, 'traits' | 'looks'>,
): boolean | null {
  const ofTraits = traits
    .filter(({ low, high }) => low !== null || high !== null)
    .map((aim) => {
      const score = scores.get(aim.traitId);
      return score === undefined ? null : passesAim(aim, score);
    });
  const ofLooks = aims
    .filter(({ required }) => required)
    .map(({ look, wanted }) => {
      const shows = allOf(
        Object.entries(look.show).map(([locus, phenotype]) => {
          const seen = looks.get(locus);
          return seen === undefined ? null : seen === phenotype;
        }),
      );
      return shows === null ? null : shows === wanted;
    });
  return allOf([...ofTraits, ...ofLooks]);
}

const allOf = (parts: readonly (boolean | null)[]): boolean | null =>
  parts.includes(false) ? false : parts.includes(null) ? null : true;
