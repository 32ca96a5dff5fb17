import { z } from 'zod';
import type { FaultSeverity, SheetLine, SheetVersion } from '../../api/score-sheets.js';
import type { Trait } from '../../api/traits.js';
import {
  optionalNumber,
  optionalText,
  optionalWholeNumber,
  requiredId,
  requiredText,
} from '../../components/field-rules.js';
import { plainNumber } from '../../wording/figures.js';
import { deductingSeverities } from '../../wording/sheet-words.js';

const severity = z.enum(['SLIGHT', 'MINOR', 'MAJOR', 'SEVERE', 'DISQUALIFYING']);

const weight = optionalNumber.refine(
  (value) => value === null || value >= 0,
  'A weight is 0 or more.',
);

const line = z
  .object({
    traitId: requiredId('Choose a trait.'),
    weight,
    noneAt: optionalNumber,
    fullAt: optionalNumber,
  })
  .refine(({ noneAt, fullAt }) => (noneAt === null) === (fullAt === null), {
    path: ['fullAt'],
    message: 'Give both levels, or neither.',
  })
  .refine(({ noneAt, fullAt }) => noneAt === null || noneAt !== fullAt, {
    path: ['fullAt'],
    message: 'The two levels must differ.',
  });

const points = optionalNumber.refine(
  (value) => value === null || (value >= 0 && value <= 100),
  'Give 0 to 100, or leave it blank.',
);

export const sheetSchema = z
  .object({
    name: requiredText('Give the sheet a name, such as Fins at 8 weeks.'),
    description: optionalText,
    fromAgeDays: optionalWholeNumber,
    toAgeDays: optionalWholeNumber,
    lines: z.array(line),
    faults: z.array(
      z.object({
        id: z.string(),
        name: requiredText('Name the fault, or remove it.'),
        severity,
      }),
    ),
    points: z.object({ SLIGHT: points, MINOR: points, MAJOR: points, SEVERE: points }),
  })
  .refine(({ fromAgeDays: from, toAgeDays: to }) => from === null || to === null || from <= to, {
    path: ['toAgeDays'],
    message: 'The last day must not come before the first.',
  });

export type SheetValues = z.input<typeof sheetSchema>;
type CheckedSheet = z.output<typeof sheetSchema>;

const text = (value: number | null | undefined): string =>
  value === null || value === undefined ? '' : plainNumber(value, 3);

/** Grades and yes or no run from one end of their range to the other; what a measurement should reach only the person can say. */
export function lineOf(trait: Trait): SheetValues['lines'][number] {
  const ends = trait.kind === 'ORDINAL' || trait.kind === 'YES_NO';
  const low = ends ? text(trait.minimum ?? (trait.kind === 'YES_NO' ? 0 : null)) : '';
  const high = ends ? text(trait.maximum ?? (trait.kind === 'YES_NO' ? 1 : null)) : '';
  const whole = low !== '' && high !== '';
  const up = trait.higherIsBetter !== false;
  return {
    traitId: trait.id,
    weight: '',
    noneAt: whole ? (up ? low : high) : '',
    fullAt: whole ? (up ? high : low) : '',
  };
}

const storedLine = ({ trait, weight: given, noneAt, fullAt }: SheetLine) => ({
  traitId: trait.id,
  weight: text(given),
  noneAt: text(noneAt),
  fullAt: text(fullAt),
});

export function valuesOf(
  sheet: { name: string; description: string | null; current: SheetVersion } | null,
): SheetValues {
  const current = sheet?.current;
  const set = new Map(current?.deductions.map((one) => [one.severity, one.points]));
  const pointsOf = (of: FaultSeverity) => text(set.get(of));
  return {
    name: sheet?.name ?? '',
    description: sheet?.description ?? '',
    fromAgeDays: text(current?.fromAgeDays),
    toAgeDays: text(current?.toAgeDays),
    lines: current?.lines.map(storedLine) ?? [],
    faults: current?.faults.map(({ id, name, severity: of }) => ({ id, name, severity: of })) ?? [],
    points: {
      SLIGHT: pointsOf('SLIGHT'),
      MINOR: pointsOf('MINOR'),
      MAJOR: pointsOf('MAJOR'),
      SEVERE: pointsOf('SEVERE'),
    },
  };
}

/** As the API takes it. */
export function contentOf({ fromAgeDays, toAgeDays, lines, faults, points: set }: CheckedSheet) {
  return {
    fromAgeDays,
    toAgeDays,
    lines,
    faults,
    deductions: deductingSeverities.flatMap((of) => {
      const given = set[of as keyof typeof set];
      return given === null ? [] : [{ severity: of, points: given }];
    }),
  };
}
