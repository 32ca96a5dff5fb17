/**
 * How long a text may be, in characters. One table for every way in (forms, files, imports), so that nothing gets in by one
 * door that another refuses, and nothing is kept that a label, a page or a list cannot bear.
 */
export const LENGTHS = {
  /** Tags, codes, keys, symbols, units, short names of loci, genotypes. */
  word: 100,
  /** Names of fish, lines, traits, sheets, looks, people; passwords. */
  name: 200,
  /** One sentence or two: reasons, origin, purpose, goal. */
  sentence: 1_000,
  /** Notes, descriptions, cautions. */
  note: 5_000,
} as const;

/** Characters of a file given as text: a pedigree of some 100,000 fish. */
export const LONGEST_FILE = 16_000_000;

/** Items of a list of a form. */
export const LONGEST_LIST = 200;

/** Classes wished for of a pair: one for each of the loci that one can see. */
export const MOST_WISHES = 40;

/** Ids chosen at once: a whole brood, or the fish of a map. */
export const MOST_IDS = 1_000;

/** Young, eggs, fish: what a count may say. */
export const LARGEST_COUNT = 1_000_000;

/** Days of an age: a hundred years. */
export const MOST_DAYS = 36_500;

/** Whole numbers the database keeps. */
export const LARGEST_INTEGER = 2_147_483_647;

/** Money in the smallest unit of its currency: ten thousand million in most. */
export const LARGEST_AMOUNT = 1_000_000_000_000;
