import { plural } from './figures.js';
import type { EnumValues } from './words.js';

/** A stage as what is lost in it, and as what the share is of. */
export const stageWords: Record<
  EnumValues<'LoadStage'>,
  { readonly title: string; readonly what: string; readonly share: string }
> = {
  HATCH: { title: 'Hatching', what: 'hatching', share: 'Share of the eggs that hatched' },
  FREE_SWIMMING: {
    title: 'Swimming free',
    what: 'survival to free-swimming',
    share: 'Share of the hatched fry that swam free',
  },
  SORTING: {
    title: 'Growing up',
    what: 'survival to jarring or sorting',
    share: 'Share of the free-swimming fry that lived to be jarred or sorted',
  },
  SOUND: {
    title: 'Sound fry',
    what: 'soundness',
    share: 'Share of the fry not culled for a fault taken as inherited',
  },
};

export const loadColumnWord: Record<EnumValues<'LoadColumn'>, string> = {
  YOUNG: 'F of the young',
  DAM: 'F of the dam',
  RECENT: 'F of the young, last three generations',
  OLD: 'F of the young, older',
};

/** Sizes of broods, as a title, within a sentence, and as what a picture shows. */
export const broodSizeWords: Record<
  EnumValues<'BroodSize'>,
  { readonly title: string; readonly what: string; readonly shown: string }
> = {
  EGGS: {
    title: 'Eggs in a spawn',
    what: 'the number of eggs',
    shown: 'Eggs of each spawn, at the mean F of the dams',
  },
  FREE_SWIMMING: {
    title: 'Fry that swim free',
    what: 'the number of fry that swim free',
    shown: 'Fry of each spawn that swam free, at the mean F of the dams',
  },
};

/** How many broods of a line are not in its figures; null where all are. */
export const broodsLeftOutText = (leftOut: number): string | null =>
  leftOut === 0
    ? null
    : `Only the latest broods are in these figures; ${plural(leftOut, 'older brood is', 'older broods are')} not.`;

/** The same for scores. */
export const scoresLeftOutText = (leftOut: number): string | null =>
  leftOut === 0
    ? null
    : `Only the latest scores of this line are in these figures; ${plural(leftOut, 'older score is', 'older scores are')} not.`;
