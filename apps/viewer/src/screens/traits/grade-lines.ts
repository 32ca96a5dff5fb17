import { decimalIn } from '@linewright/pedigree';
import { plainNumber } from '../../wording/figures.js';
import type { Grade } from '../../wording/scores.js';

/** "160 superdelta": the value a grade begins at, then its name; null where it is none. */
function gradeIn(line: string): Grade | null {
  const [value = '', ...words] = line.trim().split(/\s+/);
  const from = decimalIn(value);
  return from === null || words.length === 0 ? null : { from, name: words.join(' ') };
}

/** One grade a line, empty lines left out; null where a line is none. */
export function gradesIn(text: string): Grade[] | null {
  const grades = text
    .split('\n')
    .filter((line) => line.trim() !== '')
    .map(gradeIn);
  return grades.includes(null) ? null : grades.filter((grade) => grade !== null);
}

export const gradeLines = (grades: readonly Grade[]): string =>
  grades.map(({ from, name }) => `${plainNumber(from, 3)} ${name}`).join('\n');
