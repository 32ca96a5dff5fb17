import { plural } from './figures.js';
import type { EnumValues } from './words.js';

export type MeritPart = EnumValues<'MeritPart'>;
export type PriorName = EnumValues<'HeritabilityPrior'>;
export type MeritModelKind = EnumValues<'MeritModelKind'>;

export interface PartWords {
  readonly label: string;
  readonly hint: string;
}

/** Each part as a question that a keeper can answer. */
export const partWords: Record<MeritPart, PartWords> = {
  SEASON: {
    label: 'Season',
    hint: 'Fish scored in one quarter of a year shared weather, water and food.',
  },
  AGE: {
    label: 'Age at the score',
    hint: 'For what grows or changes with age.',
  },
  SEX: {
    label: 'Sex',
    hint: 'For what differs between males and females.',
  },
  LINES_APART: {
    label: 'Lines start apart',
    hint: 'Founders of different lines may stand higher or lower from the beginning.',
  },
  BROOD: {
    label: 'Brood',
    hint: 'Sibs share a tank and a start in life: without this, that counts as inherited.',
  },
  PLACE: {
    label: 'Place',
    hint: 'Fish with one person share water and food.',
  },
  LOOKS: {
    label: 'Repeated scores',
    hint: 'For what stays with a fish from score to score but is not inherited, such as an old injury.',
  },
  SCORER: {
    label: 'Scorer',
    hint: 'Some people score higher than others.',
  },
};

interface PriorWords {
  readonly label: string;
  readonly meaning: string;
  /** What it does to the bands of a trait that is taken as numbers; grades have words of their own. */
  readonly ofNumbers?: string;
}

export const priorWords: Record<PriorName, PriorWords> = {
  FISH_SIZE: {
    label: 'As published for the size of fish',
    meaning:
      'Before any score, about 28 % was taken as likely, give or take 15: length of common carp, 21 to 34 % (Vandeputte M et al. 2008, Aquaculture 277:7-13; the width is our own choice). No figure exists for bettas.',
  },
  FLAT: {
    label: 'Nothing: every value is as likely as another',
    meaning:
      'Before any score, each heritability from 0 to 100 % was taken as equally likely. With few fish that draws the answer towards the middle.',
    ofNumbers:
      'Bands are rather too wide then: in simulated lines with a true 30 %, the one said to hold in 80 of 100 cases held in 94 with 60 fish, in 85 with 300.',
  },
};

export const modelWord: Record<MeritModelKind, string> = {
  LINEAR: 'grades taken as numbers',
  THRESHOLD: 'grades taken in their order',
};

/** How often bands of the heritability hold where grades are taken in their order: a test holds it to the table of simulated lines. */
export const GRADED_BANDS =
  'In simulated lines scored at random, the band said to hold in 80 of 100 cases held in 78 with 60 fish and in 78 with 300 where only yes or no was seen, and in 78 and 78 with five grades.';

/** The same of what fish pass on. */
export const GRADED_VALUES =
  'Of a trait in grades it may be a little too small with few fish: in simulated lines of 60, bands said to hold in 80 of 100 cases held in 78 where only yes or no was seen and in 78 with five grades.';

/** The same where repeated scores are set apart. */
export const REPEATED_BANDS =
  'With repeated scores set apart, the band said to hold in 50 of 100 cases held in 47 with 60 fish and in 48 with 300.';

/** What a step is where grades are taken in their order. */
export const STEP_MEANING =
  'A step is what fish usually differ by: two of three lie within one step of the mean.';

/** Into what the differences between scores are parted, as the API names it. */
const shareWords: Readonly<Record<string, string>> = {
  'breeding value': 'inherited',
  looks: 'stays with a fish, not inherited',
  brood: 'shared by a brood, not inherited',
  place: 'shared by fish at one place',
  scorer: 'who scored',
  rest: 'all else: rearing, the day, luck',
};

export const shareWord = (name: string): string => shareWords[name] ?? name;

export interface BesideTold {
  readonly name: string;
  readonly fitted: boolean;
  readonly whyNot: string | null;
  readonly levels: number;
  readonly looksWithout: number;
}

/** What became of an own trait that scores were to be corrected for. */
export function besideText({ name, fitted, whyNot, levels, looksWithout }: BesideTold): string {
  if (!fitted) return `Not corrected for ${name}: ${whyNot ?? ''}`;
  const how =
    levels > 0
      ? `in ${plural(levels, 'level')}`
      : 'as a number: so much more of one for each unit more of the other';
  const without =
    looksWithout === 0
      ? ''
      : ` ${plural(looksWithout, 'score')} of fish without a score of ${name} ${looksWithout === 1 ? 'counts' : 'count'} ${levels > 0 ? 'as a level of their own' : 'as if at its mean'}.`;
  return `Corrected for ${name}, ${how}.${without}`;
}

/** What a score is corrected for; "threshold" is where one grade ends and the next begins. */
export const effectWord = (column: string, level: string | null): string => {
  if (column === 'threshold') return `from grade ${level ?? ''}`;
  if (level === null) return column === 'age' ? 'age, a day' : column;
  return `${column}: ${level}`;
};
