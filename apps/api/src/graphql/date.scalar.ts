import { isCalendarDate } from '@linewright/pedigree';
import { GraphQLError, GraphQLScalarType, Kind } from 'graphql';

const parse = (value: unknown): string => {
  if (typeof value === 'string' && isCalendarDate(value)) return value;
  throw new GraphQLError(
    `"${String(value)}" is not a date: give a calendar day as YYYY-MM-DD, such as 2026-03-14.`,
    { extensions: { code: 'VALIDATION' } },
  );
};

export const DateScalar = new GraphQLScalarType<string, string>({
  name: 'Date',
  description: 'A calendar day, YYYY-MM-DD, with no time and no zone.',
  serialize: (value) => (value instanceof Date ? value.toISOString().slice(0, 10) : String(value)),
  parseValue: parse,
  parseLiteral: (node) => parse(node.kind === Kind.STRING ? node.value : undefined),
});
