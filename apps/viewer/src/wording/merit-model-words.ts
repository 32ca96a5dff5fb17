/** Parts of a trait's model that a keeper can take in or leave. */
export const modelParts = [
  'season',
  'age',
  'sex',
  'linesApart',
  'brood',
  'place',
  'looks',
  'scorer',
] as const;

export type ModelPart = (typeof modelParts)[number];

export interface PartWords {
  readonly label: string;
  readonly hint: string;
  /** As what it is set apart or corrected for: "corrected for the season". */
  readonly done: string;
}

/** Each part as a question that a keeper can answer. */
export const partWords: Record<ModelPart, PartWords> = {
  season: {
    label: 'Season',
    hint: 'Fish scored in one quarter of a year shared weather, water and food.',
    done: 'corrected for the season',
  },
  age: {
    label: 'Age at the score',
    hint: 'For what grows or changes with age.',
    done: 'corrected for the age',
  },
  sex: {
    label: 'Sex',
    hint: 'For what differs between males and females.',
    done: 'corrected for the sex',
  },
  linesApart: {
    label: 'Lines start apart',
    hint: 'Founders of different lines may stand higher or lower from the beginning.',
    done: 'founders of each line with a mean of their own',
  },
  brood: {
    label: 'Brood',
    hint: 'Sibs share a tank and a start in life: without this, that counts as inherited.',
    done: 'what a brood shared and did not inherit set apart',
  },
  place: {
    label: 'Place',
    hint: 'Fish with one person share water and food.',
    done: 'what fish at one place share set apart',
  },
  looks: {
    label: 'Repeated scores',
    hint: 'For what stays with a fish from score to score but is not inherited, such as an old injury.',
    done: 'what stays with a fish and is not inherited set apart',
  },
  scorer: {
    label: 'Scorer',
    hint: 'Some people score higher than others.',
    done: 'how scorers differ set apart',
  },
};

export type PriorName = 'FISH_SIZE' | 'FLAT';

export const priorWords: Record<PriorName, { readonly label: string; readonly meaning: string }> = {
  FISH_SIZE: {
    label: 'As published for the size of fish',
    meaning:
      'Before any score, about 28 % was taken as likely, give or take 15: length of common carp, 21 to 34 % (Vandeputte M et al. 2008, Aquaculture 277:7-13; the width is our own choice). No figure exists for bettas.',
  },
  FLAT: {
    label: 'Nothing: each value is as likely',
    meaning:
      'Before any score, each heritability from 0 to 100 % was taken as equally likely. With few fish that draws the answer towards the middle.',
  },
};
