import { newId } from '../../api/new-id.js';
import type { Sex } from '../../wording/words.js';

/** One of several founders as it stands in the form. `offered`: the tag that was put there, and is still that while nobody typed another. */
export interface FounderRow {
  readonly id: string;
  readonly sex: Sex;
  readonly tag: string;
  readonly offered: string;
  readonly name: string;
}

export const MOST_OF_A_SEX = 20;

export interface Counts {
  readonly males: number;
  readonly females: number;
  readonly unsexed: number;
}

const sexes: readonly (readonly [keyof Counts, Sex])[] = [
  ['males', 'MALE'],
  ['females', 'FEMALE'],
  ['unsexed', 'UNSEXED'],
];

/** What was typed as a number of fish; none for what is no number, and no more than fit on the page. */
export const countIn = (text: string): number => {
  const number = Number(text.trim() === '' ? 0 : text);
  return Number.isInteger(number) && number > 0 ? Math.min(number, MOST_OF_A_SEX) : 0;
};

/** As many rows of each sex as are asked for: those that stand keep what was typed, the last ones go first. */
export const rowsFor = (rows: readonly FounderRow[], counts: Counts): FounderRow[] =>
  sexes.flatMap(([of, sex]) => {
    const standing = rows.filter((row) => row.sex === sex).slice(0, counts[of]);
    const more = Array.from({ length: counts[of] - standing.length }, () => ({
      ...{ id: newId(), sex, tag: '', offered: '', name: '' },
    }));
    return [...standing, ...more];
  });

/** Each row whose tag nobody typed gets the next one offered that stands in no other row. */
export const withTags = (rows: readonly FounderRow[], offered: readonly string[]): FounderRow[] => {
  const typed = new Set(rows.filter((row) => row.tag !== row.offered).map(({ tag }) => tag.trim()));
  const free = offered.filter((tag) => !typed.has(tag)).values();
  return rows.map((row) => {
    if (row.tag !== row.offered) return row;
    const tag = free.next().value ?? '';
    return { ...row, tag, offered: tag };
  });
};
