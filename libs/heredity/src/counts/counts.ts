import { HeredityError } from '../heredity-error.js';
import { assertAtMost, MOST } from '../limits.js';

function refusePercentages(observed: readonly number[]): void {
  const sum = observed.reduce((a, b) => a + b, 0);
  const close = (target: number) => Math.abs(sum - target) < target * 0.02;
  if (close(100) || close(1)) {
    throw new HeredityError(
      'COUNT_IS_PERCENTAGE',
      `${observed.join(', ')} look like percentages or shares. Enter the number of fish in each class: a test needs counts.`,
      { observed: observed.map(String) },
    );
  }
}

/**
 * Checks that counts are whole numbers from 0 up, and that they add up to the number scored where that is given.
 *
 * @throws HeredityError `COUNT_NEGATIVE`, `COUNT_NOT_WHOLE`, `COUNT_IS_PERCENTAGE`, `COUNT_TOTAL_MISMATCH`,
 * `TOO_LARGE` (over a million fish, over 10,000 classes).
 */
export function checkCounts(
  observed: readonly number[],
  options: { readonly scored?: number } = {},
): number {
  for (const count of observed) {
    if (count < 0) {
      throw new HeredityError('COUNT_NEGATIVE', `A count cannot be ${String(count)}.`, {
        value: count,
      });
    }
  }
  const broken = observed.find((count) => !Number.isSafeInteger(count));
  if (broken !== undefined) {
    refusePercentages(observed);
    throw new HeredityError('COUNT_NOT_WHOLE', `${String(broken)} is not a whole number of fish.`, {
      value: broken,
    });
  }
  const total = observed.reduce((a, b) => a + b, 0);
  assertAtMost(observed.length, MOST.classes, 'classes', 'Count fewer loci at a time.');
  assertAtMost(total, MOST.fish, 'fish', 'Give the counts of one brood, or of a few.');
  if (options.scored !== undefined && options.scored !== total) {
    throw new HeredityError(
      'COUNT_TOTAL_MISMATCH',
      `The classes add up to ${String(total)}, but ${String(options.scored)} fish were scored. Correct either, or add a class for the rest.`,
      { total, scored: options.scored },
    );
  }
  return total;
}

/** Counts of a brood as entered, with what makes them evidence: how many were scored, at what age. */
export interface BroodCountInput {
  /** Numbers, or text as typed. */
  readonly counts: readonly (number | string)[];
  readonly scored: number | null;
  readonly ageDays: number | null;
}

/** Whole counts that add up, with the number scored and the age (null when not noted). */
export interface BroodCount {
  readonly counts: readonly number[];
  readonly scored: number;
  readonly ageDays: number | null;
}

/**
 * Reads the counts of a brood. Percentages are refused, and so is a brood whose number scored is not given: rounded shares
 * of an unknown number carry no evidence.
 *
 * @throws HeredityError `COUNT_IS_PERCENTAGE`, `COUNT_TOTAL_MISSING`, and those of {@link checkCounts}.
 */
export function readBroodCount(input: BroodCountInput): BroodCount {
  const counts = input.counts.map((value) => {
    if (typeof value === 'number') return value;
    if (value.includes('%')) {
      throw new HeredityError(
        'COUNT_IS_PERCENTAGE',
        `"${value}" is a percentage. Enter how many fish were seen in the class.`,
        { value },
      );
    }
    const number = value.trim() === '' ? NaN : Number(value);
    if (Number.isNaN(number)) {
      throw new HeredityError('COUNT_NOT_WHOLE', `"${value}" is not a number of fish.`, { value });
    }
    return number;
  });
  if (input.scored === null) {
    throw new HeredityError(
      'COUNT_TOTAL_MISSING',
      'Say how many fish were scored in all: without that number the classes may be percentages.',
    );
  }
  checkCounts(counts, { scored: input.scored });
  if (input.ageDays !== null && !(input.ageDays >= 0)) {
    throw new HeredityError(
      'ARGUMENT_INVALID',
      `Age ${String(input.ageDays)} days makes no sense.`,
    );
  }
  return { counts, scored: input.scored, ageDays: input.ageDays };
}
