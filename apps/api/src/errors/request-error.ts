/** Codes of errors that the API itself raises; a lib's own codes pass through beside them. */
export type RequestErrorCode =
  | 'SIGN_IN_NEEDED'
  | 'OTHER_PERSON'
  | 'NOT_ALLOWED'
  | 'SET_UP_NEEDED'
  | 'SET_UP_DONE'
  | 'PASSWORD_WRONG'
  | 'CODE_NEEDED'
  | 'CODE_WRONG'
  | 'PASSKEY_REFUSED'
  | 'TOO_MANY_ATTEMPTS'
  | 'LOOPBACK_ONLY'
  | 'PASSWORD_FIRST'
  | 'SECURE_CONNECTION_NEEDED'
  | 'DATABASE_NOT_EMPTY'
  | 'NOT_FOUND'
  | 'VALIDATION'
  | 'CONFLICT_REVISION'
  | 'TAG_TAKEN'
  | 'VESSEL_OCCUPIED'
  | 'SPAWN_RECORDED'
  | 'SORTING_BEGUN'
  | 'IN_USE'
  | 'CURSOR_INVALID'
  | 'HISTORY_LONG'
  | 'IMPORT_INVALID'
  | 'IMPORT_LONG'
  | 'IMPORT_BUSY'
  | 'IMPORT_UNREADABLE'
  | 'SHARE_INVALID'
  | 'PHOTO_INVALID'
  | 'PHOTO_TOO_LARGE'
  | 'BACKUP_BUSY'
  | 'BACKUP_DAMAGED'
  | 'BACKUP_FAILED'
  | 'BACKUP_NEWER'
  | 'ORIGIN_REFUSED'
  | 'JOB_CANCELLED'
  | 'WORK_TOO_LONG';

export interface FieldProblem {
  readonly field: string;
  readonly message: string;
}

/** An error for the person who sent the request: its message names the value and the remedy. */
export class RequestError extends Error {
  constructor(
    readonly code: RequestErrorCode,
    message: string,
    readonly details: Readonly<Record<string, unknown>> = {},
  ) {
    super(message);
    this.name = 'RequestError';
  }
}

/** One or more fields of a form that cannot be saved as they are. */
export const fieldError = (...fields: FieldProblem[]): RequestError =>
  new RequestError('VALIDATION', fields.map((f) => f.message).join(' '), { fields });

export const notFound = (what: string, id: string): RequestError =>
  new RequestError(
    'NOT_FOUND',
    `There is no ${what} with id ${id}: it may live in another install.`,
    {
      id,
    },
  );
