import { MARKING_KINDS, MOST_POINTS } from '@linewright/pictures';
import { z } from 'zod';
import { FaultSeverity } from './sheet-content.js';
import { LARGEST_INTEGER, LENGTHS, LONGEST_LIST } from '../../limits/lengths.js';

/** Structures inside records, as files bring them and rows keep them. */

/** A text that a database can keep. */
export const text = (longest: number) =>
  z
    .string()
    .max(longest, {
      error: ({ input }) =>
        `it has ${(input as string).length} characters, and at most ${longest} are taken`,
    })
    .refine((value) => !value.includes('\0'), 'it holds a character that cannot be kept');

export const gradesShape = z
  .array(z.looseObject({ from: z.number(), name: text(LENGTHS.name) }))
  .max(LONGEST_LIST);

export const frequenciesShape = z
  .record(text(LENGTHS.word), z.number().min(0).max(1))
  .refine((shares) => Object.keys(shares).length <= LONGEST_LIST, 'it names too many alleles');

const level = z.number().nullish().default(null);

export const sheetLinesShape = z
  .array(
    z.looseObject({
      traitId: z.guid(),
      traitVersion: z.int().min(1).max(LARGEST_INTEGER),
      weight: level,
      noneAt: level,
      fullAt: level,
    }),
  )
  .max(LONGEST_LIST);

const severity = z.enum(FaultSeverity);

export const sheetFaultsShape = z
  .array(z.looseObject({ id: text(LENGTHS.word), name: text(LENGTHS.name), severity }))
  .max(LONGEST_LIST);

export const sheetDeductionsShape = z.partialRecord(severity, z.number().min(0).max(100));

export const idsShape = z.array(text(LENGTHS.word)).max(LONGEST_LIST);

export const careStepsShape = z
  .array(
    z.looseObject({
      ...{ id: z.string(), title: z.string(), kind: z.string(), why: z.string() },
      after: z.array(z.looseObject({ after: z.string(), hours: z.number() })),
      until: z.array(z.string()).optional(),
      basis: z.looseObject({ kind: z.string() }),
    }),
  )
  .max(LONGEST_LIST);

const place = z.looseObject({ x: z.number(), y: z.number() });

export const markingShape = z.looseObject({
  ...{ photoId: z.guid(), kind: z.enum(MARKING_KINDS), points: z.array(place).max(MOST_POINTS) },
  heads: z.enum(['left', 'right']).optional(),
  scale: z.looseObject({ from: place, to: place, millimetres: z.number() }).optional(),
  colour: z.looseObject({ at: place, tolerance: z.number() }).optional(),
  flat: z.boolean(),
});
