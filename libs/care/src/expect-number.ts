import { CareError } from './care-error.js';

/** Throws unless the value is a finite number from `least` to `most`; the message names the value and the range. */
export function expectBetween(
  what: string,
  value: number,
  least: number,
  most: number,
  hint = '',
): void {
  if (!Number.isFinite(value)) {
    throw new CareError('CARE_NOT_A_NUMBER', `${what} is "${value}": give a number.`, { value });
  }
  if (value < least || value > most) {
    throw new CareError(
      'CARE_OUT_OF_RANGE',
      `${what} is ${value}: give a value from ${least} to ${most}.${hint}`,
      { value, least, most },
    );
  }
}
