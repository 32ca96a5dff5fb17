import { QueryFailedError } from 'typeorm';
import { RequestError } from '../errors/request-error.js';

const constraintOf = (error: unknown): string | undefined =>
  error instanceof QueryFailedError
    ? (error.driverError as { constraint?: string } | undefined)?.constraint
    : undefined;

/** Runs a save and turns a broken uniqueness rule into an error that names the value. */
export const orTaken = async <T>(
  save: Promise<T>,
  constraint: string,
  field: string,
  message: string,
): Promise<T> => {
  try {
    return await save;
  } catch (error) {
    if (constraintOf(error) !== constraint) throw error;
    throw new RequestError('TAG_TAKEN', message, { fields: [{ field, message }] });
  }
};
