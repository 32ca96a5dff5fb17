import type { Grant } from '../../api/grants.js';

export const LEVELS: Readonly<Record<Grant['level'], string>> = {
  LOOK: 'Look',
  SCORE: 'Look and score',
  BREED: 'Breed with',
};

export const LEVEL_HINTS: Readonly<Record<Grant['level'], string>> = {
  LOOK: 'They see the fish, spawns and pedigree of the line.',
  SCORE: 'They also score its fish, under their own name.',
  BREED: 'They also plan pairs and record spawns and young of their own in the line.',
};

export const PARTS = ['scores', 'photos', 'notes', 'water', 'place', 'prices'] as const;
type Part = (typeof PARTS)[number];

export const PART_NAMES: Readonly<Record<Part, string>> = {
  scores: 'Scores',
  photos: 'Photos',
  notes: 'Notes',
  water: 'Care and water',
  place: 'Where fish swim',
  prices: 'Prices',
};

/** What may be ticked of a grant: parts of the line, and the names of those behind it. */
export const TICKS = [...PARTS, 'ancestors'] as const;
type Tick = (typeof TICKS)[number];

export const TICK_NAMES: Readonly<Record<Tick, string>> = {
  ...PART_NAMES,
  ancestors: 'Names of ancestors outside the line',
};

/** What is seen beside fish, spawns and pedigree. */
export function partsSeen(grant: Pick<Grant, Tick>): string {
  const seen = TICKS.filter((one) => grant[one]).map((one) => TICK_NAMES[one].toLowerCase());
  return seen.length === 0 ? 'nothing more' : seen.join(', ');
}
