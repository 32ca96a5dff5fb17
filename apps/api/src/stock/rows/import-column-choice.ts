export const ImportColumnRole = {
  TAG: 'tag',
  SIRE: 'sire',
  DAM: 'dam',
  SEX: 'sex',
  HATCH_DATE: 'hatch_date',
  LINE: 'line',
  SPAWN: 'spawn',
  UNRELATED: 'unrelated',
  NAME: 'name',
  NOTE: 'note',
  DISPOSITION: 'disposition',
  ORIGIN: 'origin',
  KEEPER: 'keeper',
  VESSEL: 'vessel',
  TRAIT: 'trait',
  IGNORE: 'ignore',
} as const;
export type ImportColumnRole = (typeof ImportColumnRole)[keyof typeof ImportColumnRole];

export interface ColumnChoice {
  readonly header: string;
  readonly role: ImportColumnRole;
  readonly traitId?: string | null;
  readonly traitName?: string | null;
}
