import type { ImportCause, ImportRepairAnswer, ImportRepairs } from '../../api/import.js';

type CauseName = Pick<ImportCause, 'code' | 'column'>;

/** Answers a whole cause; earlier answers to it go first, and this one holds for what they leave. */
export const withAnswer = (
  repairs: ImportRepairs,
  { code, column }: CauseName,
  answer: ImportRepairAnswer,
): ImportRepairs => ({
  ...repairs,
  answers: [
    ...repairs.answers.filter(
      (one) => one.code !== code || one.column !== column || one.answer !== answer,
    ),
    { code, column, answer, count: 0 },
  ],
});

/** Mends a value wherever it stands in its column. What became of it by an earlier repair of the same value is followed. */
export const withValue = (
  repairs: ImportRepairs,
  column: string,
  from: string,
  to: string,
): ImportRepairs => {
  const earlier = repairs.values.map((one) =>
    one.column === column && one.to === from ? { ...one, to } : one,
  );
  return {
    ...repairs,
    values: [
      ...earlier.filter((one) => one.column !== column || one.from !== from),
      { column, from, to },
    ],
  };
};

export const withCell = (
  repairs: ImportRepairs,
  line: number,
  column: string,
  to: string,
): ImportRepairs => ({
  ...repairs,
  cells: [
    ...repairs.cells.filter((one) => one.line !== line || one.column !== column),
    { line, column, to },
  ],
});

const including = (list: readonly number[], line: number): number[] => [
  ...new Set([...list, line]),
];

export const withoutRow = (repairs: ImportRepairs, line: number): ImportRepairs => ({
  ...repairs,
  leftOut: including(repairs.leftOut, line),
});

export const withFish = (repairs: ImportRepairs, line: number): ImportRepairs => ({
  ...repairs,
  fish: including(repairs.fish, line),
});

/** One thing that was decided, in words, and what is decided without it. */
export interface Decided {
  key: string;
  words: string;
  undone: ImportRepairs;
}

/** "none", "12": what an answer taken over from an earlier file found in this one may be nothing. */
const found = (count: number): string => (count === 0 ? 'none' : String(count));

const answerWords: Record<ImportRepairAnswer, (column: string, count: number) => string> = {
  EMPTY: (column, count) => `${column}: ${found(count)} counted as empty`,
  LEAVE_OUT: (column, count) => `${column}: ${found(count)} not imported`,
  OFFER: (column, count) => `${column}: ${found(count)} read as what was most likely meant`,
  ADD: (column, count) => `${column}: ${found(count)} recorded with a tag only`,
  NOTE: (column) => `${column}: names of people not on record go into the note`,
};

const shown = (text: string): string => (text === '' ? 'empty' : `“${text}”`);

/** All that was decided cause by cause, value by value and row by row. */
export function decidedOf(repairs: ImportRepairs): Decided[] {
  const { answers, values, cells, leftOut, fish } = repairs;
  const without = <Item>(list: readonly Item[], item: Item): Item[] =>
    list.filter((one) => one !== item);
  return [
    ...answers.map((one) => ({
      key: `answer ${one.code} ${one.column} ${one.answer}`,
      words: answerWords[one.answer](one.column ?? 'Rows', one.count),
      undone: { ...repairs, answers: without(answers, one) },
    })),
    ...values.map((one) => ({
      key: `value ${one.column} ${one.from}`,
      words: `${one.column}: ${shown(one.from)} is read as ${shown(one.to)}`,
      undone: { ...repairs, values: without(values, one) },
    })),
    ...cells.map((one) => ({
      key: `cell ${one.line} ${one.column}`,
      words: `Line ${one.line}, ${one.column}: ${shown(one.to)}`,
      undone: { ...repairs, cells: without(cells, one) },
    })),
    ...leftOut.map((line) => ({
      key: `out ${line}`,
      words: `Line ${line} is not imported`,
      undone: { ...repairs, leftOut: without(leftOut, line) },
    })),
    ...fish.map((line) => ({
      key: `fish ${line}`,
      words: `Line ${line} is a fish`,
      undone: { ...repairs, fish: without(fish, line) },
    })),
  ];
}

/** What is sent: the counts are the server's. */
export const repairsInput = (repairs: ImportRepairs) => ({
  ...{ dayOrder: repairs.dayOrder, separator: repairs.separator, unmarked: repairs.unmarked },
  answers: repairs.answers.map(({ code, column, answer }) => ({ code, column, answer })),
  values: repairs.values.map(({ column, from, to }) => ({ column, from, to })),
  cells: repairs.cells.map(({ line, column, to }) => ({ line, column, to })),
  leftOut: [...repairs.leftOut],
  fish: [...repairs.fish],
});

/** Nothing decided yet. */
export const nothingDecided: ImportRepairs = {
  ...{ dayOrder: null, separator: null, unmarked: null },
  ...{ answers: [], values: [], cells: [], leftOut: [], fish: [] },
};
