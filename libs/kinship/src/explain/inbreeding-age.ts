import { generationDepth, type Pedigree } from '@linewright/pedigree';
import { checkIndex, checkIndices } from '../checks.js';
import type { FounderOptions } from '../founder-relationship.js';
import { inbreedingCoefficients, knownInbreeding } from '../inbreeding.js';
import { KinshipError } from '../kinship-error.js';
import { localAncestry } from './local-ancestry.js';

/** F of a fish split at a number of generations back. */
export interface RecentInbreeding {
  readonly inbreeding: number;
  /** F from the ancestors of the latest generations alone, everything older taken as unrelated. */
  readonly recent: number;
  /** The rest: `inbreeding - recent`. */
  readonly old: number;
}

/**
 * Recent against old inbreeding: F as it would be if the records went back only `generations` generations (1: parents, 2:
 * grandparents too), and what the older ancestors add to it. An ancestor counts by its nearest line of descent.
 *
 * Why it matters: inbreeding that a line has carried for long has been through selection; new inbreeding has not. How much
 * that helps differs between studies, so this is a description and no verdict.
 * What is given of founders (`founders`) lies before all records and so counts as old, whatever `generations` is.
 * Source of the idea: Hinrichs D et al. (2007) J Anim Breed Genet 124:11-19; Doekes HP et al. (2019) Genet Sel Evol 51:54 (both
 * from memory). Cost: the ancestry of each distinct pair of parents.
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`, `KINSHIP_BAD_ARGUMENT`.
 */
export function recentInbreeding(
  pedigree: Pedigree,
  fish: ArrayLike<number>,
  generations: number,
  options: FounderOptions = {},
): RecentInbreeding[] {
  checkIndices(pedigree, fish);
  checkGenerations(generations);
  const all = knownInbreeding(pedigree, options.founders);
  const known = new Map<number, number>();
  return Array.from(fish, (i) => {
    const pair = pedigree.sire[i]! * pedigree.size + pedigree.dam[i]!;
    const inbreeding = all[i]!;
    let recent = inbreeding === 0 ? 0 : known.get(pair);
    if (recent === undefined) {
      recent = inbreedingWithin(pedigree, i, generations);
      known.set(pair, recent);
    }
    return { inbreeding, recent, old: inbreeding - recent };
  });
}

/**
 * F of one fish as the records go back further and further: element g - 1 is F from g generations of ancestors. Rises to F. With
 * `founders` there is one element more at the end, in which what is given of founders comes in.
 *
 * Cost: the ancestry of the fish, once for each generation.
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`.
 */
export function inbreedingByAge(
  pedigree: Pedigree,
  fish: number,
  options: FounderOptions = {},
): Float64Array {
  checkIndex(pedigree, fish);
  const depth = generationDepth(pedigree, { hiddenCount: true })[fish]!;
  const whole = knownInbreeding(pedigree, undefined)[fish]!;
  const given = options.founders !== undefined;
  const byAge = new Float64Array(given ? depth + 1 : depth).fill(whole);
  if (given) byAge[depth] = knownInbreeding(pedigree, options.founders)[fish]!;
  for (let generations = 1; generations < depth; generations++) {
    byAge[generations - 1] = inbreedingWithin(pedigree, fish, generations);
    // The rest of the ancestry adds nothing more.
    if (byAge[generations - 1] === whole) break;
  }
  return byAge;
}

function inbreedingWithin(pedigree: Pedigree, fish: number, generations: number): number {
  const sire = pedigree.sire[fish]!;
  const dam = pedigree.dam[fish]!;
  if (sire < 0 || dam < 0) return 0;
  const local = localAncestry(pedigree, sire, dam, generations - 1);
  return inbreedingCoefficients(local.pedigree)[local.brood]!;
}

function checkGenerations(generations: number): void {
  if (Number.isInteger(generations) && generations >= 1) return;
  throw new KinshipError(
    'KINSHIP_BAD_ARGUMENT',
    `generations is ${generations}; give a whole number of at least 1.`,
  );
}
