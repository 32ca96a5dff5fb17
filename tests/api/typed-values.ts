import { randomUUID } from 'node:crypto';
import {
  type GraphQLInputType,
  isEnumType,
  isInputObjectType,
  isListType,
  isNonNullType,
} from 'graphql';

/** How the values of one request are made. */
export interface Making {
  text(place: string): string;
  number(place: string): number;
  /** Items of a list; `depth` counts the lists and structures around it. */
  length(place: string, depth: number): number;
  /** A new one where it is absent. */
  id?(place: string): string;
  /** Whether what may be left out is given too. */
  readonly all: boolean;
}

/** The least that a server takes. */
export const modest: Making = { text: () => 'a', number: () => 1, length: () => 1, all: false };

const DEEPEST = 6;

/** A value of an input type, all the way down. */
export const valueOf = (
  type: GraphQLInputType,
  making: Making,
  place: string,
  depth = 0,
): unknown => {
  if (isNonNullType(type)) return valueOf(type.ofType as GraphQLInputType, making, place, depth);
  if (isListType(type))
    return Array.from({ length: making.length(place, depth) }, () =>
      valueOf(type.ofType as GraphQLInputType, making, place, depth + 1),
    );
  if (isEnumType(type)) return type.getValues()[0]?.name;
  if (isInputObjectType(type))
    return Object.fromEntries(
      Object.values(type.getFields())
        .filter((field) => isNonNullType(field.type) || (making.all && depth < DEEPEST))
        .map((field) => [
          field.name,
          valueOf(field.type, making, `${type.name}.${field.name}`, depth + 1),
        ]),
    );
  switch (type.name) {
    case 'Int':
    case 'Float':
      return making.number(place);
    case 'Boolean':
      return true;
    case 'ID':
      return making.id?.(place) ?? randomUUID();
    case 'Date':
      return '2026-01-01';
    case 'DateTime':
      return '2026-01-01T00:00:00.000Z';
    default:
      return making.text(place);
  }
};
