import { isCalendarDate } from '@linewright/pedigree';

/** Which of the two numbers before a year is the day: 5/3/2024 is the fifth of March, or the third of May. */
export type DayOrder = 'day-first' | 'month-first';

const orders = ['day-first', 'month-first'] as const;

/** A day as it is written: read, or two numbers of which either may be the day. */
type Written =
  | { readonly kind: 'day'; readonly year: number; readonly month: number; readonly day: number }
  | {
      readonly kind: 'numbers';
      readonly year: number;
      readonly first: number;
      readonly second: number;
    };

/** Names of months by their first letters, without accents; English, German, French, Spanish, Portuguese, Italian, Dutch, Indonesian. */
const months: readonly (readonly string[])[] = [
  ['jan', 'ene', 'gen'],
  ['feb', 'fev', 'peb'],
  ['mar', 'mrz', 'maa', 'mrt'],
  ['apr', 'avr', 'abr'],
  ['may', 'mai', 'mei', 'mag'],
  ['jun', 'juin', 'giu'],
  ['jul', 'juil', 'lug'],
  ['aug', 'aou', 'ago', 'agu'],
  ['sep', 'set'],
  ['oct', 'okt', 'out', 'ott'],
  ['nov', 'nop'],
  ['dec', 'dez', 'dic', 'des'],
];

/** Number of a month by its name, or `null` when the name could be none or several. */
const monthNamed = (name: string): number | null => {
  const plain = name.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
  if (plain.startsWith('juin')) return 6;
  if (plain.startsWith('juil')) return 7;
  const index = months.findIndex((starts) => starts.some((start) => plain.startsWith(start)));
  return index < 0 ? null : index + 1;
};

/** "24" is 2024 unless that is still to come: then it is 1924. */
const fullYear = (text: string, latestYear: number): number => {
  const year = Number(text);
  if (text.length === 4) return year;
  return 2000 + year <= latestYear ? 2000 + year : 1900 + year;
};

const TIME = /[T\s]+\d{1,2}:\d{2}(:\d{2}(\.\d+)?)?\s*([ap]m|Z)?$/i;
const YEAR_FIRST = /^(\d{4})\s*[-./\s]\s*(\d{1,2})\s*[-./\s]\s*(\d{1,2})\.?$/;
const NUMBERS = /^(\d{1,2})\s*[-./\s]\s*(\d{1,2})\s*[-./\s]\s*(\d{4}|\d{2})\.?$/;
const DAY_NAME_YEAR =
  /^(\d{1,2})(?:st|nd|rd|th|\.)?[-./\s]*(?:de\s+)?(\p{L}{3,12})\.?[-./,\s]*(?:de\s+)?(\d{4}|\d{2})$/iu;
const NAME_DAY_YEAR = /^(\p{L}{3,12})\.?[-./\s]*(\d{1,2})(?:st|nd|rd|th)?[-./,\s]+(\d{4}|\d{2})$/iu;

const LONGEST = 40;

const written = (text: string, latestYear: number): Written | null => {
  if (text.length > LONGEST) return null;
  const plain = text.trim().replace(TIME, '');
  const ymd = YEAR_FIRST.exec(plain);
  if (ymd !== null)
    return { kind: 'day', year: Number(ymd[1]), month: Number(ymd[2]), day: Number(ymd[3]) };
  const numbers = NUMBERS.exec(plain);
  if (numbers !== null) {
    const [, first = '', second = '', year = ''] = numbers;
    return {
      kind: 'numbers',
      year: fullYear(year, latestYear),
      first: Number(first),
      second: Number(second),
    };
  }
  const dayFirst = DAY_NAME_YEAR.exec(plain);
  const nameFirst = NAME_DAY_YEAR.exec(plain);
  const [day, name, year] =
    dayFirst !== null
      ? [dayFirst[1], dayFirst[2], dayFirst[3]]
      : [nameFirst?.[2], nameFirst?.[1], nameFirst?.[3]];
  const month = name === undefined ? null : monthNamed(name);
  if (month === null || day === undefined || year === undefined) return null;
  return { kind: 'day', year: fullYear(year, latestYear), month, day: Number(day) };
};

const iso = (year: number, month: number, day: number): string | null => {
  const text = `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
  return isCalendarDate(text) ? text : null;
};

const readNumbers = (
  { year, first, second }: Extract<Written, { kind: 'numbers' }>,
  order: DayOrder,
): string | null => (order === 'day-first' ? iso(year, second, first) : iso(year, first, second));

/**
 * The days that a text may mean, `YYYY-MM-DD`: none for what is no day, one where it can be read in one way only or in the order
 * given, two (day first, month first) where the order decides and is not known. A time behind the day is passed over. Years of two
 * digits are the latest that is not after `latestYear`.
 *
 * @example daysWritten('5/3/2024', null, 2026) // ['2024-03-05', '2024-05-03']
 * @example daysWritten('14 Mar 24', null, 2026) // ['2024-03-14']
 */
export const daysWritten = (
  text: string,
  order: DayOrder | null,
  latestYear: number,
): readonly string[] => {
  const read = written(text, latestYear);
  if (read === null) return [];
  if (read.kind === 'day') {
    const day = iso(read.year, read.month, read.day);
    return day === null ? [] : [day];
  }
  const asked = order === null ? orders : [order];
  const days = asked.flatMap((each) => readNumbers(read, each) ?? []);
  return [...new Set(days)];
};

/** What the days of a column say about their order. */
export interface OrderFound {
  /** Days that read differently in the two orders. */
  readonly open: number;
  /** The order that some day proves, a number above 12 being no month, and none speaks against; else `null`. */
  readonly proven: DayOrder | null;
  /** The first day that proves it; where days prove both orders, the first of each. */
  readonly proofs: readonly {
    readonly order: DayOrder;
    readonly at: number;
    readonly text: string;
  }[];
}

/**
 * Looks whether the days of a column prove their order: 25/12/2024 has the day first.
 *
 * @param texts cells of the column, in order; `at` of a proof is an index into them
 * @returns no order where none is proven, or both are: then it has to be asked. Cost: linear in the cells.
 */
export const findDayOrder = (texts: readonly string[], latestYear: number): OrderFound => {
  let open = 0;
  const proofs = new Map<DayOrder, OrderFound['proofs'][number]>();
  for (const [at, text] of texts.entries()) {
    const read = written(text, latestYear);
    if (read?.kind !== 'numbers') continue;
    const able = orders.filter((order) => readNumbers(read, order) !== null);
    if (able.length === 2 && read.first !== read.second) open += 1;
    const [only] = able;
    if (able.length === 1 && only !== undefined && !proofs.has(only))
      proofs.set(only, { order: only, at, text });
  }
  const [first, ...others] = [...proofs.values()];
  return {
    open,
    proven: first !== undefined && others.length === 0 ? first.order : null,
    proofs: [...proofs.values()],
  };
};
