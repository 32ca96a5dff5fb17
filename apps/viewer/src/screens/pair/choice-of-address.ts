import { readChoice, toPairingInput } from '../next-pairing/pairing-choice.js';

export type PairChoiceInput = ReturnType<typeof toPairingInput>;

/** Which pair an address holds this one against. */
export const OTHER_PAIR = 'with';

/** The choice of the list that a pair was opened from; null where the address has none, so that the line of both counts. */
export function choiceOf(search: URLSearchParams): PairChoiceInput | null {
  const asked = [...search.keys()].some((key) => key !== OTHER_PAIR);
  return asked ? toPairingInput(readChoice(search)) : null;
}

/** The other pair of the address; null where it names none. */
export function otherPairOf(
  search: URLSearchParams,
): { readonly sireId: string; readonly damId: string } | null {
  const [sireId = '', damId = ''] = (search.get(OTHER_PAIR) ?? '').split(',');
  return sireId === '' || damId === '' ? null : { sireId, damId };
}
