/** A fish of a wish, by its tag. */
export interface WishedFish {
  readonly id: string;
  readonly tag: string;
}

/** What a keeper insists on: one fish, or a pair of two. */
export interface Wish {
  readonly must: boolean;
  readonly fish: readonly [WishedFish] | readonly [WishedFish, WishedFish];
}

const keyOf = ({ fish }: Pick<Wish, 'fish'>): string => fish.map(({ id }) => id).join(' ');

/** The wish about these fish, where there is one. */
export const wishAbout = (wishes: readonly Wish[], fish: Wish['fish']): Wish | undefined =>
  wishes.find((wish) => keyOf(wish) === keyOf({ fish }));

/** Says it, in place of what was said of the same fish; said again, it is taken back. */
export function withWish(wishes: readonly Wish[], wish: Wish): Wish[] {
  const others = wishes.filter((each) => keyOf(each) !== keyOf(wish));
  const same = wishAbout(wishes, wish.fish)?.must === wish.must;
  return same ? others : [...others, wish];
}

interface Chosen {
  readonly id: string | null;
  /** With its tag, once that is known. */
  readonly named: WishedFish | null;
}

/** That a fish must be in a pair, or that both must be one; null as long as none is chosen, or a tag is not known. */
export function wishOf(sire: Chosen, dam: Chosen): Wish | null {
  const [first, second] = [sire, dam].filter(({ id }) => id !== null);
  if (first === undefined || first.named === null) return null;
  if (second === undefined) return { must: true, fish: [first.named] };
  return second.named === null ? null : { must: true, fish: [first.named, second.named] };
}

/** "T24-01 by T24-02 must be made." */
export const wishWords = ({ must, fish: [first, second] }: Wish): string =>
  second === undefined
    ? `${first.tag} ${must ? 'must be in a pair' : 'is in no pair'}`
    : `${first.tag} by ${second.tag} ${must ? 'must be made' : 'must not be made'}`;

/** What is asked of the API. */
export function proposalInput(lineId: string, wishes: readonly Wish[], limit: number | null) {
  const alone = (must: boolean) =>
    wishes.flatMap(({ must: is, fish }) => (is === must && fish.length === 1 ? [fish[0].id] : []));
  const pairs = (must: boolean) =>
    wishes.flatMap(({ must: is, fish }) =>
      is === must && fish.length === 2 ? [{ sireId: fish[0].id, damId: fish[1].id }] : [],
    );
  return {
    lineId,
    ...(limit !== null && { kinshipLimit: limit }),
    mustFishIds: alone(true),
    mustNotFishIds: alone(false),
    mustPairs: pairs(true),
    mustNotPairs: pairs(false),
  };
}
