import {
  defaultFieldResolver,
  type GraphQLField,
  getNullableType,
  type GraphQLResolveInfo,
  type GraphQLSchema,
  isListType,
  isObjectType,
} from 'graphql';
import { countList } from './answer-size.js';
import { expectWithinLimits } from './input-limits.js';
import { oneByOne } from './one-by-one.js';

type Field = GraphQLField<unknown, object, Record<string, unknown>>;

const boundArguments = (field: Field, place: string): void => {
  if (field.args.length === 0) return;
  const resolve = field.resolve ?? defaultFieldResolver;
  field.resolve = (source, args, context, info) => {
    expectWithinLimits(place, field.args, args);
    return resolve(source, args, context, info) as unknown;
  };
};

const boundList = (field: Field): void => {
  if (!isListType(getNullableType(field.type))) return;
  const resolve = field.resolve ?? defaultFieldResolver;
  const counted = (value: unknown, context: object, info: GraphQLResolveInfo): unknown => {
    if (Array.isArray(value)) countList(context, value, info);
    return value;
  };
  field.resolve = (source, args, context, info) => {
    const value: unknown = resolve(source, args, context, info);
    return value instanceof Promise
      ? value.then((list: unknown) => counted(list, context, info))
      : counted(value, context, info);
  };
};

const boundRepeats = (field: Field): void => {
  const resolve = field.resolve ?? defaultFieldResolver;
  field.resolve = (source, args, context, info) =>
    oneByOne(context, field.name, () => resolve(source, args, context, info));
};

/**
 * Bounds every field of the schema at one place: arguments are held to their limits before anything is done with them, lists are
 * counted against the largest answer, and an operation asked for several times at once takes its turns. A new field is bounded without
 * a word of its own.
 */
export const boundSchema = (schema: GraphQLSchema): GraphQLSchema => {
  const roots = [schema.getQueryType(), schema.getMutationType()];
  for (const type of Object.values(schema.getTypeMap())) {
    if (!isObjectType(type) || type.name.startsWith('__')) continue;
    for (const field of Object.values(type.getFields()) as Field[]) {
      boundList(field);
      boundArguments(field, `${type.name}.${field.name}`);
      if (roots.includes(type)) boundRepeats(field);
    }
  }
  return schema;
};
