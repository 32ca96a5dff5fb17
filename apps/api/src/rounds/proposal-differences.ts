import {
  type PairIds,
  type PairingInput,
  type PairProposal,
  setsDifference,
  type SetChange,
  type WorthDifference,
} from '@linewright/mating';

type IdsOf = (pair: readonly [number, number]) => PairIds;

/** How sure it is that other sets of pairs are worth more or less than those proposed. */
export interface ProposalDifferences {
  /** Standard error of the worth of all pairs together. */
  readonly standardError: number;
  /** Of each point of the frontier, in its order. */
  readonly frontier: readonly WorthDifference[];
  readonly price: WorthDifference | null;
  /** Of what becomes of the set without each pair, in their order. */
  readonly without: readonly (WorthDifference | null)[];
}

export const proposalDifferences = (
  input: PairingInput,
  { pairs, frontier, price }: PairProposal,
  idsOf: IdsOf,
): ProposalDifferences => {
  const ofSet = (set: readonly { readonly male: number; readonly female: number }[]) =>
    set.map(({ male, female }) => idsOf([male, female]));
  const proposed = ofSet(pairs);
  const ofChange = (change: SetChange | null): WorthDifference | null => {
    if (change === null) return null;
    return setsDifference(input, change.dropped.map(idsOf), change.instead.map(idsOf));
  };
  return {
    standardError: setsDifference(input, proposed, []).standardError,
    frontier: frontier.map((point) => setsDifference(input, ofSet(point.pairs), proposed)),
    price: ofChange(price),
    without: pairs.map(({ without }) => ofChange(without)),
  };
};
