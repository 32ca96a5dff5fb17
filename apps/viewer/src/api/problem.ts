import type { CombinedError } from 'urql';

export interface FieldProblem {
  field: string;
  message: string;
}

/** What went wrong, in words for the person at the screen. */
export interface Problem {
  code: string;
  message: string;
  fields: FieldProblem[];
  /** Set when the server masked the error: what to quote when asking for help. */
  reference: string | null;
}

export const messageOf = (fields: readonly FieldProblem[]): string =>
  fields.map((each) => each.message).join(' ');

/** Whether the message says nothing beyond what the fields say. */
export const isOfFields = ({ message, fields }: Problem): boolean =>
  fields.length > 0 && message === messageOf(fields);

const UNREACHABLE: Problem = {
  code: 'UNREACHABLE',
  message:
    'Linewright does not answer at this address. Check the connection of this device, and that Linewright is running (npm start), then try again. What you typed is kept.',
  fields: [],
  reference: null,
};

function isFieldProblem(value: unknown): value is FieldProblem {
  return (
    typeof value === 'object' &&
    value !== null &&
    typeof (value as FieldProblem).field === 'string' &&
    typeof (value as FieldProblem).message === 'string'
  );
}

export function problemFrom(error: CombinedError): Problem {
  const first = error.graphQLErrors[0];
  if (first === undefined) return UNREACHABLE;
  const { code, fields, id } = first.extensions;
  return {
    code: typeof code === 'string' ? code : 'INTERNAL',
    message: first.message,
    fields: Array.isArray(fields) ? fields.filter(isFieldProblem) : [],
    reference: typeof id === 'string' ? id : null,
  };
}

export function hasCode(error: CombinedError | undefined, code: string): boolean {
  return error?.graphQLErrors.some((each) => each.extensions['code'] === code) ?? false;
}
