import type { Pedigree } from '@linewright/pedigree';
import { checkIndices, checkLength } from '../checks.js';

/** Ages of parents at the birth of young of one kind; in the unit of the birth dates given. */
export interface ParentAge {
  readonly mean: number;
  readonly standardDeviation: number;
  readonly count: number;
}

export interface GenerationInterval {
  /** Mean of the paths that have data: of all four, the generation interval. `null` without any. */
  readonly interval: number | null;
  readonly sireToSon: ParentAge | null;
  readonly sireToDaughter: ParentAge | null;
  readonly damToSon: ParentAge | null;
  readonly damToDaughter: ParentAge | null;
}

/**
 * Generation interval: the mean age of parents at the birth of those young that bred themselves, along the four paths from
 * parent to young. Which young are sons and daughters follows from their part as sire or dam.
 *
 * Source: Rendel JM & Robertson A (1950) J Genet 50:1-8 (the four paths; from memory).
 * @param bornOn birth date of each fish as a number, for example in days; `NaN` where unknown.
 * @param fish young to look at, each once, for example those of one line; by default all. Whether they bred is seen in the
 * whole pedigree.
 * Cost: one pass. @throws {KinshipError} `KINSHIP_LENGTH_MISMATCH`, `KINSHIP_BAD_INDEX`.
 */
export function generationInterval(
  pedigree: Pedigree,
  bornOn: ArrayLike<number>,
  fish: ArrayLike<number> = Int32Array.from({ length: pedigree.size }, (_, i) => i),
): GenerationInterval {
  checkLength('bornOn', bornOn.length, pedigree.size);
  checkIndices(pedigree, fish);
  const { size, sire, dam } = pedigree;
  const isSire = new Uint8Array(size);
  const isDam = new Uint8Array(size);
  for (let i = 0; i < size; i++) {
    if (sire[i]! >= 0) isSire[sire[i]!] = 1;
    if (dam[i]! >= 0) isDam[dam[i]!] = 1;
  }
  const ages = { sireToSon: [], sireToDaughter: [], damToSon: [], damToDaughter: [] } as Record<
    'sireToSon' | 'sireToDaughter' | 'damToSon' | 'damToDaughter',
    number[]
  >;
  for (let k = 0; k < fish.length; k++) {
    const i = fish[k]!;
    const bySire = sire[i]! < 0 ? NaN : bornOn[i]! - bornOn[sire[i]!]!;
    const byDam = dam[i]! < 0 ? NaN : bornOn[i]! - bornOn[dam[i]!]!;
    if (isSire[i] === 1 && !Number.isNaN(bySire)) ages.sireToSon.push(bySire);
    if (isDam[i] === 1 && !Number.isNaN(bySire)) ages.sireToDaughter.push(bySire);
    if (isSire[i] === 1 && !Number.isNaN(byDam)) ages.damToSon.push(byDam);
    if (isDam[i] === 1 && !Number.isNaN(byDam)) ages.damToDaughter.push(byDam);
  }
  const paths = {
    sireToSon: parentAge(ages.sireToSon),
    sireToDaughter: parentAge(ages.sireToDaughter),
    damToSon: parentAge(ages.damToSon),
    damToDaughter: parentAge(ages.damToDaughter),
  };
  const known = Object.values(paths).filter((path) => path !== null);
  return {
    interval:
      known.length === 0 ? null : known.reduce((sum, path) => sum + path.mean, 0) / known.length,
    ...paths,
  };
}

function parentAge(ages: readonly number[]): ParentAge | null {
  if (ages.length === 0) return null;
  const mean = ages.reduce((sum, age) => sum + age, 0) / ages.length;
  const squares = ages.reduce((sum, age) => sum + (age - mean) ** 2, 0);
  return {
    mean,
    standardDeviation: ages.length < 2 ? 0 : Math.sqrt(squares / (ages.length - 1)),
    count: ages.length,
  };
}
