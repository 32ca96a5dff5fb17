import { HeredityError } from '../heredity-error.js';

/** Ends a computation that was told to stop. Throws `HeredityError` with code `CANCELLED`. */
export const cancelled = (): never => {
  throw new HeredityError('CANCELLED', 'The computation was stopped before its end.');
};
