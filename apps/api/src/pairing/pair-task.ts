import {
  type PairIds,
  type PairingFilter,
  type PairingInput,
  type PairingOrder,
  rankPairings,
} from '@linewright/mating';
import { pedigreeOfPart, type PedigreePart } from '../kinship/pedigree-part.js';

/** Pairs whose order is kept at most: all are judged, and the first of the order are kept. */
const MOST_LISTED = 250_000;

/** A ranking to be made. Task and answer can pass between threads. */
export interface PairTask extends PedigreePart {
  readonly inbreeding?: Float64Array;
  readonly input: Omit<PairingInput, 'pedigree' | 'inbreeding'>;
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
  /** The males and the females by which pairs are told. */
  readonly sires: readonly string[];
  readonly dams: readonly string[];
  /** The order, as numbers: place among the males times the number of females, plus place among the females. */
  readonly order: readonly number[];
  /** The pair that the others are held against. */
  readonly best: PairIds | null;
}

/** Judges every male by every female and puts the first of them in order. */
export const runPairTask = (
  { inbreeding, input, filter, order, ...part }: PairTask,
  onProgress?: (share: number) => void,
): PairAnswer => {
  const pedigree = pedigreeOfPart(part);
  const ranking = rankPairings(
    { ...input, pedigree, ...(inbreeding && { inbreeding }) },
    filter,
    order,
    {
      most: MOST_LISTED,
      ...(onProgress && { onProgress }),
    },
  );
  return {
    maleCount: ranking.maleCount,
    femaleCount: ranking.femaleCount,
    considered: ranking.considered,
    passed: ranking.passed,
    unsexed: ranking.leftOut.length,
    ...numbered(ranking.pairs()),
    best: ranking.best,
  };
};

/** Pairs of the order from `from` on, `count` of them or as many as there are. */
export const pairsOf = (
  { sires, dams, order }: PairAnswer,
  from: number,
  count: number,
): PairIds[] =>
  order.slice(from, from + count).map((number) => ({
    sireId: sires[Math.floor(number / dams.length)]!,
    damId: dams[number % dams.length]!,
  }));

/** Two ids a pair would make a long answer of a long list. */
const numbered = (pairs: readonly PairIds[]): Pick<PairAnswer, 'sires' | 'dams' | 'order'> => {
  const [sires, dams] = [new Map<string, number>(), new Map<string, number>()];
  const place = (known: Map<string, number>, id: string): number => {
    const at = known.get(id) ?? known.size;
    known.set(id, at);
    return at;
  };
  const places = pairs.map(({ sireId, damId }) => [place(sires, sireId), place(dams, damId)]);
  return {
    sires: [...sires.keys()],
    dams: [...dams.keys()],
    order: places.map(([m, f]) => m! * dams.size + f!),
  };
};
