import { coancestryBlock } from '@linewright/kinship';
import { CoancestryStrip } from '../coancestry-strip.js';
import type { PairingInput } from '../pairing-input.js';
import { PairingJudge } from '../pairing-judge.js';
import type { PairProblem } from './pair-problem.js';

/** Candidates with their pairs' worth and relationship, as pairs are judged everywhere else. */
export type JudgedPairs = Pick<PairProblem, 'males' | 'females' | 'worth' | 'coancestry'>;

/**
 * Every male by every female as {@link rankPairings} judges them: the same worth, and a pair with a warning that says stop cannot be made.
 *
 * Throws as `rankPairings`. Cost: coancestries of all candidates with all, and one light pass over the pairs.
 */
export function judgedPairs(input: PairingInput): JudgedPairs {
  const strip = new CoancestryStrip();
  const judge = new PairingJudge(input, (of) => strip.of(of));
  const places = Int32Array.of(...judge.maleIndex, ...judge.femaleIndex);
  const coancestry = coancestryBlock(judge.pedigree, places, places);
  const [males, females] = [judge.males.map(({ id }) => id), judge.females.map(({ id }) => id)];
  const worth = new Float64Array(males.length * females.length);
  const rows = strip.rowsFor(females.length);
  for (let from = 0; from < males.length; from += rows) {
    const to = Math.min(from + rows, males.length);
    strip.fill(judge, from, to);
    for (let m = from; m < to; m++)
      for (let f = 0; f < females.length; f++)
        worth[m * females.length + f] =
          judge.gravest(m, f) === 'stop' ? NaN : judge.worth.worths.worth(m, f);
  }
  return { males, females, worth, coancestry };
}
