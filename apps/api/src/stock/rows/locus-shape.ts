import { defineLocus, type Locus, type LocusDefinition } from '@linewright/heredity';
import { z } from 'zod';
import { storedJson } from '../../database/stored-json.js';
import { LENGTHS } from '../../limits/lengths.js';

const words = (longest: number) =>
  z
    .string()
    .max(longest)
    .refine((text) => !text.includes('\0'));
const word = words(LENGTHS.word);
const name = words(LENGTHS.name);
const sentence = words(LENGTHS.sentence);
const note = words(LENGTHS.note);
const list = <T extends z.ZodType>(item: T, most = 400) => z.array(item).max(most);
/** An absent part takes its default; files and old rows write `null` for it. */
const may = <T extends z.ZodType>(shape: T) =>
  shape.nullish().transform((value) => value ?? undefined);

const DOMINANCE = [
  ...['complete', 'incomplete', 'dose', 'variable'],
  ...['polygenic', 'sex-determining', 'unknown'],
] as const;
const LAYERS = [
  ...['iridescence', 'dark pigment', 'red pigment', 'pattern', 'fins', 'body', 'sex'],
] as const;

/** Every part of a locus that a person defines, as it comes from a file or a stored row. Other keys are left out. */
export const locusDefinitionShape = z.object({
  id: z.string().regex(/^[a-z][a-z0-9-]{0,31}$/),
  name,
  alleles: list(z.object({ id: word, symbol: word, name }), 100),
  phenotypes: list(z.object({ id: name, name }), 200),
  expression: list(
    z.object({
      genotype: word,
      shows: list(z.object({ phenotype: name, probability: word }), 100),
    }),
  ),
  layer: may(z.enum(LAYERS)),
  dominance: may(z.enum(DOMINANCE)),
  dominanceNote: may(note),
  notations: may(
    list(z.object({ id: word, name, symbols: z.record(word, word), note: note.default('') }), 20),
  ),
  hiddenBy: may(list(z.object({ locus: word, phenotypes: list(name), why: sentence }), 50)),
  viability: may(list(z.object({ genotype: word, survival: word, why: sentence }))),
  fertility: may(
    list(z.object({ genotype: word, sex: z.enum(['male', 'female']), effect: sentence })),
  ),
  scoring: may(
    z.object({ fromWeeks: z.number().min(0).max(5_300).nullable(), note, basis: sentence }),
  ),
  risks: may(list(note, 50)),
  notes: may(list(note, 50)),
  testable: may(z.boolean()),
});

/** The definition in the lib's shape: absent parts are absent. */
export const toLocusDefinition = (read: z.infer<typeof locusDefinitionShape>): LocusDefinition =>
  Object.fromEntries(
    Object.entries(read).filter(([, part]) => part !== undefined),
  ) as unknown as LocusDefinition;

/** A stored locus with the parts that computing needs; older rows may carry more. */
export const storedLocusShape = locusDefinitionShape.superRefine((read, context) => {
  try {
    defineLocus(toLocusDefinition(read));
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    context.addIssue({ code: 'custom', message });
  }
});

const textOf = (value: unknown, key: string): string | null => {
  const part = (value as Record<string, unknown> | null)?.[key];
  return typeof part === 'string' && part !== '' ? part.slice(0, LENGTHS.name) : null;
};

/** Stands for a stored locus that cannot be used: it is listed with the reason, and nothing is computed of it. */
export const unusableLocus = (value: unknown, why: string): Locus => ({
  id: textOf(value, 'id') ?? 'unreadable',
  version: 1,
  name: textOf(value, 'name') ?? textOf(value, 'id') ?? 'unreadable',
  origin: 'own',
  status: textOf(value, 'status') === 'withdrawn' ? 'withdrawn' : 'current',
  layer: 'body',
  ...{ alleles: [], notations: [], phenotypes: [], expression: [], hiddenBy: [], viability: [] },
  ...{ fertility: [], interplay: [], risks: [], sources: [], notes: [] },
  dominance: 'unknown',
  dominanceNote: '',
  scoring: { fromWeeks: null, note: 'Not stated.', basis: 'the keeper' },
  confidence: 'practice',
  computable: false,
  whyNot: `What is stored of it cannot be read (${why}). Enter it again, or withdraw it.`,
  testable: false,
});

export const storedLocus = storedJson('locus', storedLocusShape, unusableLocus);
