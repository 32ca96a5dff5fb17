import type { Disposition } from '../wording/words.js';
import { dispositionWord, fieldWord } from '../wording/words.js';

export interface FieldChange {
  readonly field: string;
  readonly before: string | null;
  readonly after: string | null;
}

/** What ids in a history stand for, by id. */
export type RecordNames = ReadonlyMap<string, string>;

const blank: Readonly<Record<string, string>> = { lineId: 'no line', swimsWithId: 'not known' };

/** A value of a history in words: the name behind an id, a decision as it is called on the screens. */
export function valueWords(field: string, value: string | null, names: RecordNames): string {
  if (value === null) return blank[field] ?? 'blank';
  if (field === 'disposition') return dispositionWord[value.toUpperCase() as Disposition] ?? value;
  return names.get(value) ?? value;
}

const words: Readonly<Record<string, string>> = {
  swimsWithId: 'swims',
  dispositionDate: 'decided on',
  dispositionReason: 'reason',
};

/** "line: RED → BLUE". */
export function changeWords({ field, before, after }: FieldChange, names: RecordNames): string {
  if (field === 'withdrawnReason' && after !== null) return `withdrawn: ${after}`;
  if (field === 'withdrawnReason') return 'no longer withdrawn';
  const word = words[field] ?? fieldWord(field);
  return `${word}: ${valueWords(field, before, names)} → ${valueWords(field, after, names)}`;
}
