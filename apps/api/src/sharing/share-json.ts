import { catalogue, defineLocus, type Locus } from '@linewright/heredity';
import { sheetTotal } from '@linewright/merit';
import { z } from 'zod';
import { FieldChecks } from '../errors/field-checks.js';
import { locusDefinitionShape, toLocusDefinition } from '../heredity/locus-shape.js';
import { LARGEST_INTEGER, LENGTHS, LONGEST_LIST, MOST_DAYS } from '../limits/lengths.js';
import { expectLines, expectWindow } from '../score-sheets/sheet-checks.js';
import { FaultSeverity, type SheetContent } from '../score-sheets/sheet-content.js';

/** Parts of records that are structures of their own: each is checked, and read in one way only. */

export type SharedSheetVersion = SheetContent & { readonly version: number };

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Keys in the order of the alphabet all the way down: databases and hands order them as they like. */
export const inOrder = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(inOrder);
  if (!isObject(value)) return value;
  return Object.fromEntries(
    Object.keys(value)
      .sort()
      .map((key) => [key, inOrder(value[key])]),
  );
};

/** A text that a database can keep. */
export const text = (longest: number) =>
  z
    .string()
    .max(longest, { error: ({ input }) => tooLong(String(input), longest) })
    .refine((value) => !value.includes('\0'), 'holds a character that cannot be kept');

const tooLong = (given: string, longest: number): string =>
  `has ${given.length} characters: at most ${longest} are taken`;

const told = (error: unknown): string => (error instanceof Error ? error.message : String(error));

export const grades = z
  .array(z.looseObject({ from: z.number(), name: text(LENGTHS.name) }))
  .max(LONGEST_LIST)
  .transform(inOrder);

export const frequencies = z
  .record(text(LENGTHS.word), z.number().min(0).max(1))
  .refine((shares) => Object.keys(shares).length <= LONGEST_LIST, 'names too many alleles')
  .superRefine((shares, context) => {
    const sum = Object.values(shares).reduce((a, b) => a + b, 0);
    if (Math.abs(sum - 1) > 1e-9)
      context.addIssue({ code: 'custom', message: `has frequencies that sum to ${sum}, not 1` });
  })
  .transform(inOrder);

/** A locus as its keeper defined it, without the number of its version: versions are counted in each install. */
export const ownLocus = locusDefinitionShape
  .extend({ status: z.string().nullish() })
  .transform(({ status, ...read }, context) => {
    const listed = catalogue.find(({ id }) => id === read.id);
    const refuse = (message: string): never => {
      context.addIssue({ code: 'custom', message });
      return z.NEVER;
    };
    if (listed !== undefined) return refuse(`is called as the catalogue's ${listed.name} is`);
    try {
      const locus: Partial<Locus> & { version?: number } = {
        ...defineLocus(toLocusDefinition(read)),
        status: status === 'withdrawn' ? 'withdrawn' : 'current',
      };
      delete locus.version;
      return inOrder(locus);
    } catch (error) {
      return refuse(`cannot be used: ${told(error)}`);
    }
  });

const severity = z.enum(FaultSeverity);
const level = z.number().nullish().default(null);
const days = z.int().min(0).max(MOST_DAYS).nullish().default(null);

const sheetVersion = z
  .looseObject({
    version: z.int().min(1).max(LARGEST_INTEGER),
    fromAgeDays: days,
    toAgeDays: days,
    lines: z
      .array(
        z.looseObject({
          traitId: z.uuid(),
          traitVersion: z.int().min(1).max(LARGEST_INTEGER),
          weight: level,
          noneAt: level,
          fullAt: level,
        }),
      )
      .max(LONGEST_LIST),
    faults: z
      .array(z.looseObject({ id: text(LENGTHS.word), name: text(LENGTHS.name), severity }))
      .max(LONGEST_LIST),
    deductions: z.partialRecord(severity, z.number().min(0).max(100)),
  })
  .superRefine((content, context) => {
    const wrong = contentProblem(content as unknown as SheetContent);
    if (wrong !== null) context.addIssue({ code: 'custom', message: wrong });
  });

const contentProblem = (content: SheetContent): string | null => {
  try {
    const checks = new FieldChecks();
    expectWindow(content.fromAgeDays, content.toAgeDays, checks);
    expectLines(content, new Map(), checks);
    checks.expectNone();
    sheetTotal(
      content.lines.map(({ traitId, ...line }) => ({ trait: traitId, ...line })),
      new Map(),
      [],
    );
    return null;
  } catch (error) {
    return `cannot be scored on: ${told(error)}`;
  }
};

export const sheetVersions = z
  .array(sheetVersion)
  .min(1)
  .max(1_000)
  .superRefine((versions, context) => {
    const at = versions.findIndex(({ version }, index) => version !== index + 1);
    if (at >= 0)
      context.addIssue({ code: 'custom', message: `has no version ${at + 1} in its place` });
  })
  .transform(inOrder);

/** The traits that the versions of a sheet score. */
export const traitsOfVersions = (value: unknown): string[] =>
  (value as SharedSheetVersion[]).flatMap(({ lines }) => lines.map(({ traitId }) => traitId));
