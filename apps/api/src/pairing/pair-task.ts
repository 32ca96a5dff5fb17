import {
  type PairingFilter,
  type PairingInput,
  type PairingOrder,
  rankPairings,
} from '@linewright/mating';
import { pedigreeFromArrays } from '@linewright/pedigree';

/** Pairs listed at most: all are judged, and the first of the order are kept. */
const MOST_LISTED = 2_000;

/** A ranking to be made. Task and answer can pass between threads. */
export interface PairTask {
  readonly ids: readonly string[];
  readonly sire: Int32Array;
  readonly dam: Int32Array;
  /** Marks those that stand for parents nobody knows. */
  readonly hidden?: Uint8Array;
  readonly input: Omit<PairingInput, 'pedigree'>;
  readonly filter: PairingFilter;
  readonly order: PairingOrder;
}

export interface PairAnswer {
  readonly maleCount: number;
  readonly femaleCount: number;
  /** Pairs judged, and those that passed the filter. */
  readonly considered: number;
  readonly passed: number;
  readonly unsexed: number;
  /** The first of the order. */
  readonly pairs: readonly { readonly sireId: string; readonly damId: string }[];
}

/** Judges every male by every female and puts the first of them in order. */
export const runPairTask = (
  { ids, sire, dam, hidden, input, filter, order }: PairTask,
  onProgress?: (share: number) => void,
): PairAnswer => {
  const pedigree = pedigreeFromArrays(sire, dam, ids, hidden);
  const ranking = rankPairings({ ...input, pedigree }, filter, order, {
    most: MOST_LISTED,
    ...(onProgress && { onProgress }),
  });
  return {
    maleCount: ranking.maleCount,
    femaleCount: ranking.femaleCount,
    considered: ranking.considered,
    passed: ranking.passed,
    unsexed: ranking.leftOut.length,
    pairs: ranking.pairs(),
  };
};
