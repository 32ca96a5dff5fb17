import { fieldError } from '../errors/request-error.js';

/** A figure that was given lies in a range that a tank can have; what was not given passes. */
export const expectFigure = (
  field: string,
  what: string,
  value: number | null | undefined,
  least: number,
  most: number,
  hint = '',
): void => {
  if (value === null || value === undefined) return;
  if (Number.isFinite(value) && value >= least && value <= most) return;
  throw fieldError({
    field,
    message: `${what} is "${value}": give a value from ${least} to ${most}, or leave it blank.${hint}`,
  });
};
