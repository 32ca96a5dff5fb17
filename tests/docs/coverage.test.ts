import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const file = (path: string): string =>
  readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');

interface Row {
  readonly fish: string;
  readonly model: string;
  readonly lines: string;
  readonly scored: string;
  readonly truth: string;
  /** Percent held by bands of 50, 80 and 95 %. */
  readonly values: readonly number[];
  readonly heritability: readonly number[];
}

/** The table that the coverage bench made. */
const rows = file('docs/methods/heritability.md')
  .split('\n')
  .filter((line) => /^\| [\d,]+ +\| [a-z/ ]+ +\| [\d,]+ +\|/.test(line))
  .map((line): Row => {
    const [
      ,
      fish = '',
      model = '',
      lines = '',
      scored = '',
      truth = '',
      ,
      ,
      values = '',
      held = '',
    ] = line.split('|').map((cell) => cell.trim());
    const numbers = (cell: string): number[] => cell.split(', ').map(Number);
    return {
      fish,
      model,
      lines,
      scored,
      truth,
      values: numbers(values),
      heritability: numbers(held),
    };
  });

const SAID = [50, 80, 95];
const GRADED = ['yes/no', 'five grades'];
const whole = (value: number | undefined): number => Math.round(value ?? NaN);
const range = (values: readonly number[]): string =>
  `${whole(Math.min(...values))} to ${whole(Math.max(...values))}`;

describe('the table of how often bands hold', () => {
  it('has 1,000 lines in each row of 60 and 300 fish, and of 3,000 with one look', () => {
    const whole = rows.filter(({ fish, model }) => fish !== '3,000' || model === 'one look');
    expect(new Set(whole.map(({ lines }) => lines))).toEqual(new Set(['1,000']));
    for (const model of ['one look', 'brood', 'two looks', 'yes/no', 'five grades'])
      for (const fish of model === 'one look' ? ['60', '300', '3,000'] : ['60', '300'])
        for (const scored of ['random half', 'best half'])
          expect(
            rows.filter((row) => row.model === model && row.fish === fish && row.scored === scored),
            `${fish} ${model} ${scored}`,
          ).toHaveLength(scored === 'best half' && GRADED.includes(model) ? 0 : 2);
  });

  // Standard error of a counted coverage, sqrt(p (1 - p) / N): 0.0158, 0.0126 and 0.0069 of 1,000 lines (computed).
  it('says how well so many lines tell it: two standard errors', () => {
    const points = (p: number): number => 200 * Math.sqrt((p * (1 - p)) / 1000);
    expect([0.5, 0.8, 0.95].map((p) => points(p) / 200)).toEqual(
      [0.0158, 0.0126, 0.0069].map((se) => expect.closeTo(se, 4) as number),
    );
    expect(file('docs/methods/heritability.md').replaceAll('\n', ' ')).toContain(
      `Of 1,000 lines 50 % is known to ${points(0.5).toFixed(0)} points either way, 95 % to ${points(0.95).toFixed(1)}.`,
    );
  });

  /** Rows that are held to two points: scores are random, the truth is as the prior says, and enough lines stand behind them. */
  const fair = rows.filter(
    ({ scored, truth, lines }) =>
      scored === 'random half' && truth === '0 to 1' && lines === '1,000',
  );
  const off = (held: readonly number[]): number =>
    Math.max(...held.map((percent, k) => Math.abs(percent - SAID[k]!)));
  const fairRow = (model: string, fish: string): Row =>
    fair.find((row) => row.model === model && row.fish === fish)!;

  it('is off by no more than two points where the screens say nothing else', () => {
    expect(fair).toHaveLength(11);
    for (const { model, fish, values, heritability } of fair) {
      if (!(GRADED.includes(model) && fish === '60'))
        expect(off(values), `${fish} ${model}`).toBeLessThanOrEqual(2);
      if (model === 'one look' || model === 'brood')
        expect(off(heritability), `${fish} ${model}`).toBeLessThanOrEqual(2);
    }
  });

  it('is told on the screens of grades, of yes and no, and of repeated scores', () => {
    const words = file('apps/viewer/src/wording/merit-model-words.ts');
    const held = (model: string, fish: string, of: 'values' | 'heritability', k: number): number =>
      whole(fairRow(model, fish)[of][k]);
    const graded = (model: string, fish: string): number => held(model, fish, 'heritability', 1);
    // Grades are off by a little over two points at most.
    for (const { model, values, heritability } of fair)
      if (GRADED.includes(model))
        for (const held of [values, heritability]) expect(off(held)).toBeLessThan(2.6);
    for (const said of [
      `in 80 of 100 cases held in ${graded('yes/no', '60')} with 60 fish and in ${graded('yes/no', '300')} with 300 where only yes or no was seen, and in ${graded('five grades', '60')} and ${graded('five grades', '300')} with five grades.`,
      `in 80 of 100 cases held in ${held('yes/no', '60', 'values', 1)} where only yes or no was seen and in ${held('five grades', '60', 'values', 1)} with five grades.`,
      `in 50 of 100 cases held in ${held('two looks', '60', 'heritability', 0)} with 60 fish and in ${held('two looks', '300', 'heritability', 0)} with 300.`,
    ])
      expect(words).toContain(said);
  });

  it('is told on the screens where only the best were scored', () => {
    const best = rows.filter(({ scored }) => scored === 'best half');
    const at95 = (of: 'values' | 'heritability', fish?: string): string =>
      range(best.filter((row) => (fish ?? row.fish) === row.fish).map((row) => row[of][2]!));
    expect(file('apps/api/src/merit/selection.ts')).toContain(
      `bands of values said to hold in 95 of 100 cases held in ${at95('values')}; those of the heritability in ${at95('heritability', '60')} with 60 fish, in ${at95('heritability', '300')} with 300, in ${at95('heritability', '3,000')} with 3,000.`,
    );
  });

  it('is told beside the flat prior where the truth is not as that says', () => {
    const held = (fish: string): number =>
      whole(
        rows.find(
          (row) =>
            row.model === 'one look' &&
            row.fish === fish &&
            row.truth === '0.3' &&
            row.scored === 'random half',
        )?.heritability[1],
      );
    expect(file('apps/viewer/src/wording/merit-model-words.ts')).toContain(
      `in simulated lines with a true 30 %, the one said to hold in 80 of 100 cases held in ${held('60')} with 60 fish, in ${held('300')} with 300.`,
    );
  });
});
