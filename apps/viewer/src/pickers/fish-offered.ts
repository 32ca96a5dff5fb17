import type { FISH_CHOICES, FISH_NAME } from '../api/fish.js';
import type { ResultOf } from '../api/graphql.js';
import { ageToday } from '../wording/figures.js';
import { dispositionWord, placeWords, sexWord } from '../wording/words.js';

export type FoundFish = ResultOf<typeof FISH_CHOICES>['fishList'];
type FoundOne = FoundFish['edges'][number]['node'];
type ChosenFish = ResultOf<typeof FISH_NAME>['fish'];

interface Offered {
  value: string;
  label: string;
  disabled?: boolean;
}

/** "T24-07-12 · male · 9 months", with the decision unless it is kept, and where it swims. */
function foundWords(fish: FoundOne): string {
  const { tag, sex, hatchDate, disposition, name } = fish;
  const decided = disposition === 'KEEPER' ? null : dispositionWord[disposition];
  return [tag, sexWord[sex], ageToday(hatchDate), decided, placeWords(fish), name]
    .filter((part) => part !== null && part !== '')
    .join(' · ');
}

/**
 * The first page of what was found as choices, the chosen fish before it where it is not among them, and how many more
 * there are: without a word the fish looked for would seem not to be there.
 */
export function fishOffered(
  list: FoundFish | undefined,
  chosen: ChosenFish | undefined,
): Offered[] {
  const found = (list?.edges ?? []).map(({ node }) => ({
    value: node.id,
    label: foundWords(node),
  }));
  const missing = chosen !== undefined && found.every(({ value }) => value !== chosen.id);
  const more = (list?.totalCount ?? 0) - found.length;
  return [
    ...(missing ? [{ value: chosen.id, label: `${chosen.tag} · ${sexWord[chosen.sex]}` }] : []),
    ...found,
    ...(more > 0
      ? [
          {
            value: 'more',
            label: `${more.toLocaleString('en')} more: type more of the tag`,
            disabled: true,
          },
        ]
      : []),
  ];
}
