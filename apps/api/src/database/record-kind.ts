/** Kinds of records that have a history and can be shared. */
export const recordKinds = {
  FISH: 'fish',
  SPAWN: 'spawn',
  LINE: 'line',
  TRAIT: 'trait',
  SCORE: 'score',
  TRAIT_MODEL: 'trait_model',
  SCORING_DRAW: 'scoring_draw',
  GENOTYPE: 'genotype',
  PAIRING: 'pairing',
  ROUND: 'round',
  LINE_ROUTE: 'line_route',
  SPAWN_EVENT: 'spawn_event',
  SPAWN_COUNT: 'spawn_count',
  SPAWN_LOSS: 'spawn_loss',
  CLASS_COUNT: 'class_count',
  PHENOTYPE: 'phenotype',
  LOCUS: 'locus',
  LOCUS_SETTING: 'locus_setting',
  CARE_RECORD: 'care_record',
  CARE_TEMPLATE: 'care_template',
  WATER_READING: 'water_reading',
  SCORE_SHEET: 'score_sheet',
  SHEET_SCORING: 'sheet_scoring',
  PHOTO: 'photo',
} as const;

export type RecordKind = (typeof recordKinds)[keyof typeof recordKinds];
