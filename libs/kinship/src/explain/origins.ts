import { NO_PARENT, type Pedigree } from '@linewright/pedigree';
import { checkIndex } from '../checks.js';
import { readFounderRelationship, type FounderOptions } from '../founder-relationship.js';
import { knownInbreeding } from '../inbreeding.js';
import { localAncestry } from './local-ancestry.js';
import { coancestryAtEnds, explorePair } from './pair-lattice.js';

/** An old fish in which a share of a fish's inbreeding arose. */
export interface InbreedingOrigin {
  readonly ancestor: number;
  /** Probability that the two genes of the fish are copies of one gene of this ancestor, and of none younger. */
  readonly contribution: number;
  /** Mean generations back from the fish to the ancestor over the two lines, weighted by probability. */
  readonly meanGenerations: number;
}

export interface InbreedingOrigins {
  readonly coefficient: number;
  /** Largest first. With `beforeFounders` they add up to the coefficient when `complete`. */
  readonly origins: readonly InbreedingOrigin[];
  /** The part that arose before the founders, by what is given of them; 0 where nothing is. */
  readonly beforeFounders: number;
  /** Mean generations back over the origins listed: the age of the fish's inbreeding. `null` where there are none. */
  readonly meanGenerations: number | null;
  readonly complete: boolean;
}

/**
 * Divides a fish's F among the ancestors in which its two genes were last one gene.
 *
 * A path's contribution (1/2)^n (1 + F_A) mixes two things: the lines meeting in the same gene of A, and meeting in A's two
 * genes that are alike because A itself is inbred. Here only the first is credited to A; the second is followed further up,
 * to where A's own genes meet. So old inbreeding is shown where it arose, and the parts add up to F.
 *
 * Derivation: the coancestry recursion f(A, A) = (1 + F_A) / 2 read as a random walk; our own form of a standard argument.
 * What is given of founders (`founders`) is older than any ancestor on record and is summed apart. A founder whose coancestry with
 * itself is under 1/2 stands for a group of different fish, in which no genes meet.
 * Cost: pairs of ancestors that two climbing lines can stand on, at most `budget` (400,000).
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`.
 */
export function inbreedingOrigins(
  pedigree: Pedigree,
  fish: number,
  options: FounderOptions & { readonly budget?: number } = {},
): InbreedingOrigins {
  checkIndex(pedigree, fish);
  const sire = pedigree.sire[fish]!;
  const dam = pedigree.dam[fish]!;
  if (sire === NO_PARENT || dam === NO_PARENT) {
    const coefficient = knownInbreeding(pedigree, options.founders)[fish]!;
    const beforeFounders = coefficient;
    return { coefficient, origins: [], beforeFounders, meanGenerations: null, complete: true };
  }
  const block = readFounderRelationship(pedigree, options.founders);
  const local = localAncestry(pedigree, sire, dam, Infinity, block);
  const everyone = new Uint8Array(local.pedigree.size).fill(1);
  const [first, second] = local.roots;
  const lattice = explorePair(
    local.pedigree,
    first,
    second,
    everyone,
    options.budget ?? 400_000,
    true,
  );
  const { origins, beforeFounders } = climb(lattice, local);
  origins.sort((a, b) => b.contribution - a.contribution || b.ancestor - a.ancestor);
  const onRecord = origins.reduce((sum, one) => sum + one.contribution, 0);
  const ages = origins.reduce((sum, one) => sum + one.contribution * one.meanGenerations, 0);
  return {
    coefficient: onRecord + beforeFounders,
    origins,
    beforeFounders,
    meanGenerations: onRecord > 0 ? ages / onRecord : null,
    complete: lattice.complete,
  };
}

/** Follows both lines up from the fish, with the weight that each pair of ancestors is reached with. */
function climb(
  lattice: ReturnType<typeof explorePair>,
  local: ReturnType<typeof localAncestry>,
): { readonly origins: InbreedingOrigin[]; readonly beforeFounders: number } {
  const given = local.founders?.founders.length ?? 0;
  const nobody = new Float64Array(local.pedigree.size);
  const ends = coancestryAtEnds(lattice, nobody, local.founders);
  const weight = new Float64Array(lattice.size);
  const weightedSteps = new Float64Array(lattice.size);
  const handUp = (from: number, to: number, steps: number): void => {
    if (to < 0) return;
    weight[to]! += weight[from]! / 2;
    weightedSteps[to]! += (weightedSteps[from]! + steps * weight[from]!) / 2;
  };
  weight[0] = 1;
  // Both lines have taken one step from the fish to its parents.
  weightedSteps[0] = 2;
  const origins: InbreedingOrigin[] = [];
  let beforeFounders = 0;
  for (let k = lattice.size - 1; k >= 0; k--) {
    const state = lattice.upwards[k]!;
    const ancestor = lattice.younger[state]!;
    if (ancestor !== lattice.older[state]!) {
      beforeFounders += weight[state]! * ends[state]!;
      handUp(state, lattice.bySire[state]!, 1);
      handUp(state, lattice.byDam[state]!, 1);
      continue;
    }
    handUp(state, lattice.bySire[state]!, 2);
    if (ancestor < given) {
      const own = local.founders!.coancestry[ancestor * (given + 1)]!;
      // The same gene twice with 1/2; the rest of a founder's coancestry with itself was there before it.
      beforeFounders += weight[state]! * (own < 0.5 ? own : own - 0.5);
      if (own < 0.5) continue;
    }
    const contribution = weight[state]! / 2;
    if (contribution === 0) continue;
    const meanGenerations = weightedSteps[state]! / weight[state]! / 2;
    origins.push({ ancestor: local.original[ancestor]!, contribution, meanGenerations });
  }
  return { origins, beforeFounders };
}
