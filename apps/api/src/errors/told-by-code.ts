import { CareError } from '@linewright/care';
import { HeredityError } from '@linewright/heredity';
import { KinshipError } from '@linewright/kinship';
import { MatingError } from '@linewright/mating';
import { MeritError } from '@linewright/merit';
import { PedigreeError } from '@linewright/pedigree';
import { PicturesError } from '@linewright/pictures';
import { RequestError } from './request-error.js';

export interface ToldError {
  readonly code: string;
  readonly message: string;
  readonly details: Readonly<Record<string, unknown>>;
}

/**
 * Errors that are answers: raised by the API or a lib with a code of their own. Those of the database are told by `toldError`; this one
 * loads neither it nor the server, for the threads of requests, which begin anew each time.
 */
export const toldByCode = (error: unknown): ToldError | null => {
  if (error instanceof RequestError)
    return { code: error.code, message: error.message, details: error.details };
  if (
    error instanceof PedigreeError ||
    error instanceof KinshipError ||
    error instanceof HeredityError ||
    error instanceof MatingError ||
    error instanceof CareError ||
    error instanceof MeritError ||
    error instanceof PicturesError
  ) {
    const details = error instanceof HeredityError ? error.details : {};
    return { code: error.code, message: error.message, details };
  }
  return null;
};
