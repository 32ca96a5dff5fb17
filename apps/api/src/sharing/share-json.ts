import { catalogue, defineLocus, type Locus } from '@linewright/heredity';
import { type CareStep, checkTemplate, MOST_STEPS } from '@linewright/care';
import { sheetTotal } from '@linewright/merit';
import { z } from 'zod';
import { FieldChecks } from '../errors/field-checks.js';
import { locusDefinitionShape, toLocusDefinition } from '../stock/rows/locus-shape.js';
import { LARGEST_INTEGER, LENGTHS, LONGEST_LIST, MOST_DAYS } from '../limits/lengths.js';
import {
  frequenciesShape,
  gradesShape,
  sheetDeductionsShape,
  sheetFaultsShape,
  sheetLinesShape,
  text,
} from '../stock/rows/record-shapes.js';
import { expectLines, expectWindow } from '../stock/valid-sheet.js';
import type { SheetContent } from '../stock/rows/sheet-content.js';

/** Parts of records that are structures of their own: each is checked, and read in one way only. */

export type SharedSheetVersion = SheetContent & { readonly version: number };

/** Whether it is a structure with named parts. */
export const isStructure = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Keys in the order of the alphabet all the way down: databases and hands order them as they like. */
export const inOrder = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(inOrder);
  if (!isStructure(value)) return value;
  return Object.fromEntries(
    Object.keys(value)
      .sort()
      .map((key) => [key, inOrder(value[key])]),
  );
};

const told = (error: unknown): string => (error instanceof Error ? error.message : String(error));

export const grades = gradesShape.transform(inOrder);

export const frequencies = frequenciesShape
  .superRefine((shares, context) => {
    const sum = Object.values(shares).reduce((a, b) => a + b, 0);
    if (Math.abs(sum - 1) > 1e-9)
      context.addIssue({ code: 'custom', message: `they sum to ${sum}, not 1` });
  })
  .transform(inOrder);

/** A locus as a person defined it, without the number of its version: versions are counted in each install. */
export const ownLocus = locusDefinitionShape
  .extend({ status: z.string().nullish() })
  .transform(({ status, ...read }, context) => {
    const listed = catalogue.find(({ id }) => id === read.id);
    const refuse = (message: string): never => {
      context.addIssue({ code: 'custom', message });
      return z.NEVER;
    };
    if (listed !== undefined) return refuse(`it is called as the catalogue's ${listed.name} is`);
    try {
      const locus: Partial<Locus> & { version?: number } = {
        ...defineLocus(toLocusDefinition(read)),
        status: status === 'withdrawn' ? 'withdrawn' : 'current',
      };
      delete locus.version;
      return inOrder(locus);
    } catch (error) {
      return refuse(`it cannot be used: ${told(error)}`);
    }
  });

const days = z.int().min(0).max(MOST_DAYS).nullish().default(null);

const sheetVersion = z
  .looseObject({
    version: z.int().min(1).max(LARGEST_INTEGER),
    fromAgeDays: days,
    toAgeDays: days,
    lines: sheetLinesShape,
    faults: sheetFaultsShape,
    deductions: sheetDeductionsShape,
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
    return `it cannot be scored on: ${told(error)}`;
  }
};

export const sheetVersions = z
  .array(sheetVersion)
  .min(1)
  .max(1_000)
  .superRefine((versions, context) => {
    const at = versions.findIndex(({ version }, index) => version !== index + 1);
    if (at >= 0)
      context.addIssue({ code: 'custom', message: `version ${at + 1} is not in its place` });
  })
  .transform(inOrder);

const careTiming = z.object({
  ...{ after: text(LENGTHS.word), hours: z.number() },
  ...{ earliest: z.number().optional(), latest: z.number().optional() },
});

const careBasis = z.discriminatedUnion('kind', [
  z.object({ kind: z.enum(['practice', 'own']) }),
  z.object({
    kind: z.literal('published'),
    ...{ citation: text(LENGTHS.sentence), conditions: text(LENGTHS.sentence) },
  }),
]);

const careStep = z.object({
  ...{ id: text(LENGTHS.word), title: text(LENGTHS.name), why: text(LENGTHS.note) },
  kind: z.enum(['prepare', 'do', 'observe', 'feed']),
  after: z.array(careTiming).max(LONGEST_LIST),
  repeat: z.object({ everyHours: z.number(), forHours: z.number().optional() }).optional(),
  until: z.array(text(LENGTHS.word)).max(LONGEST_LIST).optional(),
  ...{ eachTime: z.boolean().optional(), onlyIf: text(LENGTHS.word).optional() },
  ...{ lapseHours: z.number().optional(), caution: text(LENGTHS.note).optional() },
  basis: careBasis,
});

/** The steps of a care plan of a person's own, by the rules of its form. */
export const careSteps = z
  .array(careStep)
  .max(MOST_STEPS)
  .superRefine((steps, context) => {
    const [problem] = checkTemplate({ name: 'plan', steps: steps as unknown as CareStep[] });
    if (problem !== undefined) context.addIssue({ code: 'custom', message: problem.message });
  })
  .transform(inOrder);

/** The traits that the versions of a sheet score. */
export const traitsOfVersions = (value: unknown): string[] =>
  (value as SharedSheetVersion[]).flatMap(({ lines }) => lines.map(({ traitId }) => traitId));
