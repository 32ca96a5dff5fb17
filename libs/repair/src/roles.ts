import { sexWritten } from './words.js';
import { daysWritten } from './written-day.js';

/** What a column can be read as by itself; traits and columns passed over are for the caller. */
export type FileRole =
  | 'tag'
  | 'sire'
  | 'dam'
  | 'sex'
  | 'hatch_date'
  | 'line'
  | 'spawn'
  | 'unrelated'
  | 'name'
  | 'note'
  | 'disposition'
  | 'origin'
  | 'keeper'
  | 'vessel';

const words: Readonly<Record<FileRole, string>> = {
  tag: 'tag, id, fish, fish tag, fish id, fish no, fish number, no, nr, number, tag no, tag number, code',
  sire: 'sire, father, sire tag, sire id, father tag, father id, male parent',
  dam: 'dam, mother, dam tag, dam id, mother tag, mother id, female parent',
  sex: 'sex, gender, m f, sex m f',
  hatch_date:
    'hatch date, hatched, hatched on, date hatched, hatch, hatch day, born, born on, birth date, birthdate, birthday, date of birth, dob, date of hatch',
  line: 'line, line code, strain, bloodline',
  spawn: 'spawn, spawn tag, spawn no, spawn number, brood, sibs, siblings, batch, clutch',
  unrelated: 'unrelated, unrelated founder',
  name: 'name, fish name, call name',
  note: 'note, notes, remark, remarks, comment, comments',
  disposition: 'disposition, status, state, fate, in use, kept, use',
  origin: 'origin, source, bought from, from, provenance, where from, acquired from, supplier',
  vessel: 'vessel, jar, tank, tub, jar no, jar number, tank no, tank number, kept in',
  keeper: 'keeper, owner, kept by, with, swims with, held by, location of fish',
};

/** Headers are compared without regard to capitals, underscores and punctuation. */
export const plainHeader = (header: string): string =>
  header
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

const roleByWord = new Map(
  Object.entries(words).flatMap(([role, list]) =>
    list.split(', ').map((word) => [word, role as FileRole] as const),
  ),
);

/** The role that a header stands for by itself, or `undefined`. */
export const roleOfHeader = (header: string): FileRole | undefined =>
  roleByWord.get(plainHeader(header));

/** So many of ten filled cells have to be of a kind, and so many cells be filled, before a column is taken for it. */
const OF_TEN = 8;
const FEWEST = 3;
/** Cells looked at. */
const LOOKED_AT = 500;

/** The role that the cells of a column with a strange header speak for: words for a sex, or days; else `null`. */
export const roleOfCells = (
  cells: readonly string[],
  latestYear: number,
): 'sex' | 'hatch_date' | null => {
  const filled = cells.slice(0, LOOKED_AT).filter((cell) => cell !== '');
  if (filled.length < FEWEST) return null;
  const enough = (fits: (cell: string) => boolean): boolean =>
    filled.filter(fits).length * 10 >= filled.length * OF_TEN;
  const letters = (cell: string): boolean => !/^[\d?]+$/.test(cell);
  if (enough((cell) => letters(cell) && sexWritten(cell) !== null)) return 'sex';
  return enough((cell) => daysWritten(cell, null, latestYear).length > 0) ? 'hatch_date' : null;
};
