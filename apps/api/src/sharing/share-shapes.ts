import { z } from 'zod';
import { isCalendarDate, momentIn } from '@linewright/pedigree';
import { LARGEST_INTEGER, LENGTHS, LONGEST_LIST } from '../limits/lengths.js';
import { text } from '../stock/rows/record-shapes.js';

const uuid = /^[\da-f]{8}(-[\da-f]{4}){3}-[\da-f]{12}$/;

/** What a field of a record may be, by the word used for it in the table of kinds. */
export const shapes = {
  id: z.string().regex(uuid, 'it is not a UUID in small letters'),
  /** Tags, codes, keys, short names. */
  word: text(LENGTHS.word),
  name: text(LENGTHS.name),
  sentence: text(LENGTHS.sentence),
  text: text(LENGTHS.note),
  date: z.string().refine(isCalendarDate, 'it is not a calendar day (YYYY-MM-DD)'),
  instant: z
    .string()
    .max(40)
    .refine((value) => momentIn(value) !== null, 'it is not a time')
    // Databases keep microseconds and clocks give milliseconds.
    .transform((value) => momentIn(value)!.toISOString()),
  integer: z.int().min(-LARGEST_INTEGER).max(LARGEST_INTEGER),
  count: z.int().min(0).max(LARGEST_INTEGER),
  number: z.number(),
  boolean: z.boolean(),
  words: z.array(text(LENGTHS.word)).max(LONGEST_LIST),
} as const;

export type FieldType = keyof typeof shapes;
