import { STARTING_PURPOSE, type LinePurpose } from '@linewright/mating';
import { z } from 'zod';
import { LARGEST_COUNT, LENGTHS, LONGEST_LIST } from '../../limits/lengths.js';
import { text } from './record-shapes.js';

const word = text(LENGTHS.word);
const name = text(LENGTHS.name);
const points = z.number().min(0);
const share = z.number().min(0).max(1);
const count = z.int().min(1).max(LARGEST_COUNT);
const days = z.number().min(0);
const day = z.iso.date();
const rest = z.looseObject({ least: days, preferred: days });

/** What a line is for, as a row keeps it. Parts that came later than the row are absent. */
export const linePurposeShape = z
  .looseObject({
    traits: z
      .array(
        z.looseObject({
          traitId: z.guid(),
          better: z.enum(['higher', 'lower', 'within']),
          low: z.number().nullable(),
          high: z.number().nullable(),
          worth: points,
        }),
      )
      .max(LONGEST_LIST),
    looks: z
      .array(
        z.looseObject({
          look: z.looseObject({ show: z.record(word, name) }),
          wanted: z.boolean(),
          worth: points,
          required: z.boolean(),
        }),
      )
      .max(LONGEST_LIST),
    ceiling: share,
    kinshipRise: share.nullable(),
    broods: count,
    vessels: count.nullable(),
    broodsPerFish: count,
    fry: count.nullable(),
    keep: count,
    earliest: day.nullable(),
    latest: day.nullable(),
    inbreedingCost: points.nullable(),
    rules: z.looseObject({
      ages: z.looseObject({
        capableFrom: days,
        preferredFrom: days,
        bestUntil: days,
        fertileUntil: days,
      }),
      rest: z.looseObject({ male: rest, female: rest }),
      bodyLengthRatio: z.looseObject({ least: z.number(), most: z.number() }).nullable(),
      knownAncestryFrom: share.optional(),
    }),
  })
  .partial();

/** Stands for what cannot be read: nothing in particular. */
export const unreadablePurpose = (): LinePurpose => STARTING_PURPOSE;
