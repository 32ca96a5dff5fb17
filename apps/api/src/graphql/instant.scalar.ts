import { momentIn } from '@linewright/pedigree';
import { GraphQLError, GraphQLScalarType, Kind } from 'graphql';

const parse = (value: unknown): Date => {
  const at = typeof value === 'string' ? momentIn(value) : null;
  if (at !== null) return at;
  throw new GraphQLError(
    `"${String(value)}" is not a time: give day and time with their zone, such as 2026-03-14T08:30:00Z.`,
    { extensions: { code: 'VALIDATION' } },
  );
};

/** In place of the framework's own, which takes any text and moves a day that the calendar does not have to the next month. */
export const InstantScalar = new GraphQLScalarType<Date, string | null>({
  name: 'DateTime',
  description:
    'A moment: day and time with their zone, such as 2026-03-14T08:30:00Z; answered in UTC.',
  serialize: (value) => (value instanceof Date ? value.toISOString() : null),
  parseValue: parse,
  parseLiteral: (node) => parse(node.kind === Kind.STRING ? node.value : undefined),
});
