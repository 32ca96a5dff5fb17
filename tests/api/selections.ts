import {
  getNamedType,
  type GraphQLField,
  type GraphQLSchema,
  isCompositeType,
  isInterfaceType,
  isObjectType,
} from 'graphql';

const needsNothing = (field: GraphQLField<unknown, unknown>): boolean =>
  field.args.every(
    ({ type, defaultValue }) => !String(type).endsWith('!') || defaultValue !== undefined,
  );

const fieldsOf = (schema: GraphQLSchema, type: string): GraphQLField<unknown, unknown>[] => {
  const named = schema.getType(type);
  if (!isObjectType(named) && !isInterfaceType(named)) return [];
  return Object.values(named.getFields()).filter(needsNothing);
};

const leaves = (schema: GraphQLSchema, type: string): string =>
  [
    '__typename',
    ...fieldsOf(schema, type)
      .filter((field) => !isCompositeType(getNamedType(field.type)))
      .map(({ name }) => name),
  ].join(' ');

/** Every field of a type that asks for nothing, one selection each, with the plain values of what it gives. */
export const selectionsOf = (schema: GraphQLSchema, type: string): string[] =>
  fieldsOf(schema, type).map((field) => {
    const given = getNamedType(field.type);
    return isCompositeType(given) ? `${field.name} { ${leaves(schema, given.name)} }` : field.name;
  });
