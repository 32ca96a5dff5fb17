import type { Pedigree } from '@linewright/pedigree';
import type { FounderOptions } from '../founder-relationship.js';
import { knownInbreeding } from '../inbreeding.js';

/**
 * Ancestral inbreeding f_a of every fish: the probability that a gene drawn from it has been in at least one inbred ancestor
 * as one of two genes alike by descent, and so has been through the selection that inbreeding brings.
 *
 * f_a = [ f_a(s) + (1 - f_a(s)) F(s) + f_a(d) + (1 - f_a(d)) F(d) ] / 2, an unknown parent adding nothing.
 * Source: Ballou JD (1997) J Hered 88:169-178, formula from memory, confirmed by independent computation. The formula takes a
 * gene's history in an ancestor and that ancestor's inbreeding as independent; they are not quite, so it is an approximation.
 *
 * With `founders` the F are those that come of what is given; a founder's own f_a stays 0, as its ancestors are not on record.
 * Cost: one pass once all F are known.
 * @returns one value a fish, 0 to 1.
 */
export function ancestralInbreeding(
  pedigree: Pedigree,
  options: FounderOptions = {},
): Float64Array {
  const { size, sire, dam } = pedigree;
  const inbreeding = knownInbreeding(pedigree, options.founders);
  const ancestral = new Float64Array(size);
  const through = (parent: number): number =>
    parent < 0 ? 0 : ancestral[parent]! + (1 - ancestral[parent]!) * inbreeding[parent]!;
  for (let i = 0; i < size; i++) ancestral[i] = (through(sire[i]!) + through(dam[i]!)) / 2;
  return ancestral;
}
