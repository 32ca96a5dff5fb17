import {
  inbreedingCoefficients,
  type LineHealth,
  lineHealth,
  meanKinship,
} from '@linewright/kinship';
import { generationDepth, pedigreeFromArrays, type Sex } from '@linewright/pedigree';

/** The fish of a line and all their ancestors, by index. Task and answer can pass between threads. */
export interface LineTask {
  readonly sire: Int32Array;
  readonly dam: Int32Array;
  /** All fish of the line. */
  readonly members: Int32Array;
  readonly inUse: Int32Array;
  /** Of each of `inUse`. */
  readonly sex: readonly Sex[];
  /** {@link Pedigree.hidden}, where there is one. */
  readonly hidden?: Uint8Array;
  /** What is of unknown origin, by index. */
  readonly unknown: Uint8Array;
  /** Day of hatching of every fish as a number of days; `NaN` where unknown. */
  readonly bornOn: Float64Array;
}

export interface LineAnswer {
  readonly generation: Int32Array;
  readonly inbreeding: Float64Array;
  /** One for each of `inUse`. */
  readonly kinship: Float64Array;
  readonly health: LineHealth;
}

/** The same drops for the same records: a figure must not move when the page is read again. */
const SEED = 20_260_101;

/** All figures of a line in one go. */
export const runLineTask = (
  { sire, dam, hidden, members, inUse, sex, bornOn }: LineTask,
  onProgress?: (share: number) => void,
): LineAnswer => {
  const pedigree = pedigreeFromArrays(sire, dam, undefined, hidden);
  const generation = generationDepth(pedigree);
  return {
    generation,
    inbreeding: inbreedingCoefficients(pedigree),
    kinship: meanKinship(pedigree, inUse),
    health: lineHealth({
      pedigree,
      inUse,
      sex,
      line: members,
      generation,
      bornOn,
      seed: SEED,
      ...(onProgress && { onProgress }),
    }),
  };
};
