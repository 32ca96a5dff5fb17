import { z } from 'zod';
import type { PurposeContent, PurposeTrait, SentPurpose } from '../../api/line-purpose.js';
import {
  optionalDate,
  optionalNumber,
  optionalText,
  requiredId,
  requiredNumber,
  wholeNumber,
} from '../../components/field-rules.js';
import { plainNumber } from '../../wording/figures.js';

const MOST_BROODS = 200;
const MOST_YOUNG = 100_000;
const MOST_DAYS = 36_500;

const points = requiredNumber.refine((value) => value >= 0, 'Points are 0 or more.');

const trait = z
  .object({
    traitId: requiredId('Choose a trait.'),
    better: z.enum(['HIGHER', 'LOWER', 'WITHIN']),
    low: optionalNumber,
    high: optionalNumber,
    worth: points,
  })
  .refine(({ low, high }) => low === null || high === null || low <= high, {
    path: ['high'],
    message: 'The highest value must not be below the lowest.',
  })
  .refine(({ better, low, high }) => better !== 'WITHIN' || low !== null || high !== null, {
    path: ['high'],
    message: 'A range needs at least one end.',
  });

const look = z.object({
  parts: z.array(z.string()).min(1, 'Choose what the fish shows.'),
  wanted: z.enum(['yes', 'no']),
  worth: points,
  required: z.boolean(),
});

const whole = (most: number) => wholeNumber(1, most);
const orNone = (most: number) =>
  z.string().transform((text, context) => {
    if (text.trim() === '') return null;
    const read = whole(most).safeParse(text);
    if (read.success) return read.data;
    context.addIssue({ code: 'custom', message: read.error.issues[0]?.message ?? '' });
    return z.NEVER;
  });

const share = (text: string) =>
  requiredNumber.refine((value) => value >= 0 && value <= 100, text).transform((n) => n / 100);
const days = wholeNumber(0, MOST_DAYS);

const rising = (names: readonly string[], message: string) => ({
  check: (values: Readonly<Record<string, unknown>>) =>
    names.every((name, k) => {
      const before = values[names[k - 1] ?? name];
      return (values[name] as number) >= (before as number);
    }),
  path: [names.at(-1) ?? ''],
  message,
});

const agesRise = rising(
  ['capableFrom', 'preferredFrom', 'bestUntil', 'fertileUntil'],
  'No age may be lower than the one before it.',
);
const restRises = rising(['least', 'preferred'], 'Give at least as many days as before.');
const rest = z
  .object({ least: days, preferred: days })
  .refine(restRises.check, { path: restRises.path, message: restRises.message });

export const purposeSchema = z
  .object({
    traits: z.array(trait),
    looks: z.array(look),
    ceiling: share('Give a percentage from 0 to 100.'),
    kinshipRise: optionalNumber
      .refine((n) => n === null || (n >= 0 && n <= 100), 'Give a percentage from 0 to 100.')
      .transform((n) => (n === null ? null : n / 100)),
    broods: whole(MOST_BROODS),
    vessels: orNone(MOST_BROODS),
    broodsPerFish: whole(MOST_BROODS),
    fry: orNone(MOST_YOUNG),
    keep: wholeNumber(2, MOST_YOUNG),
    earliest: optionalDate,
    latest: optionalDate,
    inbreedingCost: optionalNumber.refine((n) => n === null || n >= 0, 'Points are 0 or more.'),
    ages: z
      .object({ capableFrom: days, preferredFrom: days, bestUntil: days, fertileUntil: days })
      .refine(agesRise.check, { path: agesRise.path, message: agesRise.message }),
    maleRest: rest,
    femaleRest: rest,
    lengthLeast: optionalNumber,
    lengthMost: optionalNumber,
    knownAncestry: share('Give a percentage from 0 to 100.'),
    note: optionalText,
  })
  .refine(({ earliest, latest }) => earliest === null || latest === null || earliest <= latest, {
    path: ['latest'],
    message: 'The last day must not come before the first.',
  })
  .refine(({ lengthLeast: a, lengthMost: b }) => (a === null) === (b === null), {
    path: ['lengthMost'],
    message: 'Give both, or neither.',
  })
  .refine(({ lengthLeast: a, lengthMost: b }) => a === null || b === null || a <= b, {
    path: ['lengthMost'],
    message: 'The larger one must not be below the smaller.',
  });

export type PurposeValues = z.input<typeof purposeSchema>;
export type CheckedPurpose = z.output<typeof purposeSchema>;

const text = (value: number | null): string => (value === null ? '' : plainNumber(value, 6));
const inPercent = (value: number | null): string => text(value === null ? null : value * 100);
const textsOf = <K extends string>(values: Readonly<Record<K, number>>): Record<K, string> =>
  Object.fromEntries(Object.entries(values).map(([k, v]) => [k, text(v as number)])) as Record<
    K,
    string
  >;

/** A look's parts as a field chooses them: locus and what is seen at it. */
export const partKey = ({ locusId, phenotype }: { locusId: string; phenotype: string }): string =>
  `${locusId}:${phenotype}`;

/** What was said, as the form shows it. */
export function valuesOf(content: PurposeContent): PurposeValues {
  const { ages, maleRest, femaleRest, bodyLengthRatio, knownAncestryFrom } = content.rules;
  return {
    traits: content.traits.map(({ traitId, better, low, high, worth }) => ({
      ...{ traitId, better },
      ...{ low: text(low), high: text(high), worth: text(worth) },
    })),
    looks: content.looks.map(({ show, wanted, worth, required }) => ({
      parts: show.map(partKey),
      wanted: wanted ? 'yes' : 'no',
      ...{ worth: text(worth), required },
    })),
    ceiling: inPercent(content.ceiling),
    kinshipRise: inPercent(content.kinshipRise),
    ...{ broods: text(content.broods), vessels: text(content.vessels) },
    ...{ broodsPerFish: text(content.broodsPerFish), fry: text(content.fry) },
    ...{ keep: text(content.keep), inbreedingCost: text(content.inbreedingCost) },
    ...{ earliest: content.earliest ?? '', latest: content.latest ?? '' },
    ages: textsOf({
      ...{ capableFrom: ages.capableFrom, preferredFrom: ages.preferredFrom },
      ...{ bestUntil: ages.bestUntil, fertileUntil: ages.fertileUntil },
    }),
    maleRest: textsOf({ least: maleRest.least, preferred: maleRest.preferred }),
    femaleRest: textsOf({ least: femaleRest.least, preferred: femaleRest.preferred }),
    lengthLeast: text(bodyLengthRatio?.least ?? null),
    lengthMost: text(bodyLengthRatio?.most ?? null),
    knownAncestry: inPercent(knownAncestryFrom),
    note: '',
  };
}

const showOf = (parts: readonly string[]) =>
  parts.map((part) => {
    const at = part.indexOf(':');
    return { locusId: part.slice(0, at), phenotype: part.slice(at + 1) };
  });

/** As the API takes it. */
export function sentContent(values: CheckedPurpose): SentPurpose {
  const { ages, maleRest, femaleRest, knownAncestry, looks, note: _, ...others } = values;
  const { lengthLeast, lengthMost, ...rest } = others;
  return {
    ...rest,
    looks: looks.map(({ parts, wanted, worth, required }) => ({
      show: showOf(parts),
      wanted: wanted === 'yes',
      ...{ worth, required },
    })),
    rules: {
      ...{ ages, maleRest, femaleRest, knownAncestryFrom: knownAncestry },
      bodyLengthRatio:
        lengthLeast === null || lengthMost === null
          ? null
          : { least: lengthLeast, most: lengthMost },
    },
  };
}

/** Said by the answer of the API, and not taken back by it. */
const ANSWER_ONLY: ReadonlySet<string> = new Set(['__typename', 'trait']);

/** A version as it would be sent again, to go back to it. */
export const sentAgain = (content: PurposeContent): SentPurpose =>
  JSON.parse(
    JSON.stringify(content, (key, value: unknown) => (ANSWER_ONLY.has(key) ? undefined : value)),
  ) as SentPurpose;

/** A new wish for a trait; which way is better is as the trait says. */
export const newAim = ({
  id,
  higherIsBetter,
}: Pick<PurposeTrait, 'id' | 'higherIsBetter'>): PurposeValues['traits'][number] => ({
  traitId: id,
  better: higherIsBetter === null ? 'WITHIN' : higherIsBetter ? 'HIGHER' : 'LOWER',
  ...{ low: '', high: '', worth: '1' },
});

export const newLook = (): PurposeValues['looks'][number] => ({
  parts: [],
  wanted: 'yes',
  ...{ worth: '1', required: false },
});
