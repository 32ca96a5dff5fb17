import { MOST_STEPS } from '@linewright/care';
import {
  type GraphQLArgument,
  type GraphQLInputField,
  type GraphQLInputType,
  getNamedType,
  getNullableType,
  isInputObjectType,
  isListType,
} from 'graphql';
import { type FieldProblem, fieldError } from '../errors/request-error.js';
import {
  LARGEST_AMOUNT,
  LARGEST_COUNT,
  LARGEST_INTEGER,
  LENGTHS,
  LONGEST_FILE,
  LONGEST_LIST,
  MOST_IDS,
  MOST_WISHES,
} from '../limits/lengths.js';

/** What one value of an input may be: characters of a text, items of a list, or the size of a number. */
export interface InputLimit {
  readonly characters?: number;
  readonly items?: number;
  readonly size?: number;
}

const ID_LENGTH = 100;
const LARGEST_FLOAT = 1e9;

const named = (names: string, limit: InputLimit): [string, InputLimit][] =>
  names.split(' ').map((name) => [name, limit]);

const word = { characters: LENGTHS.word };
const sentence = { characters: LENGTHS.sentence };
const note = { characters: LENGTHS.note };
const file = { characters: LONGEST_FILE };
const ids = { items: MOST_IDS };
const version = { size: LARGEST_INTEGER };

/** By the name of the argument or field, or by `Type.name` where one stands for something else. What is not here takes the usual limit of its type. */
const limits = new Map<string, InputLimit>([
  ...named(
    'tag tags code key symbol unit locusId locusIds genotype allele alleleId notation',
    word,
  ),
  ...named('fraction share survival zone step onlyIf until start vessel severity', word),
  ...named(
    'reason goal origin purpose failedReason phenotype caption citation conditions',
    sentence,
  ),
  ...named('kit confirm header after cursor folder', sentence),
  ...named('PairInstallInput.code SaveSearchInput.filter', note),
  ...named('note description caution why learnt answer words', note),
  ...named('Mutation.previewImport.text Mutation.confirmImport.text BeginImportInput.text', file),
  ...named('fishIds sireIds damIds', ids),
  // The ids of up to four fish stand in it.
  ['AdoptRouteInput.key', sentence],
  ...named(
    'ImportValueRepairInput.from ImportValueRepairInput.to ImportCellRepairInput.to',
    sentence,
  ),
  ...named('ImportRepairsInput.leftOut ImportRepairsInput.fish', ids),
  ['tags', { ...word, ...ids }],
  ['SaveCareTemplateInput.steps', { items: MOST_STEPS }],
  // Each is looked for in every pair of the stock.
  ['wantClasses', { ...sentence, items: MOST_WISHES }],
  ['amount', { size: LARGEST_AMOUNT }],
  ...named('revision version traitVersion sheetVersion', version),
]);

const usual: Readonly<Record<string, InputLimit>> = {
  String: { characters: LENGTHS.name },
  ID: { characters: ID_LENGTH },
  Int: { size: LARGEST_COUNT },
  Float: { size: LARGEST_FLOAT },
};

/** The limit of an argument or input field; `place` is `Type.field` or `Type.field.argument`. Every one has one. */
export const limitOf = (place: string, type: GraphQLInputType): InputLimit => {
  const name = place.slice(place.lastIndexOf('.') + 1);
  const given = limits.get(place) ?? limits.get(name) ?? {};
  const holdsList = isListType(getNullableType(type));
  return {
    ...usual[getNamedType(type).name],
    ...(holdsList && { items: LONGEST_LIST }),
    ...given,
  };
};

const number = (value: number): string => value.toLocaleString('en');

const problemOf = (name: string, value: unknown, limit: InputLimit): string | null => {
  if (typeof value === 'string' && value.length > (limit.characters ?? Infinity))
    return `"${name}" has ${number(value.length)} characters: give at most ${number(limit.characters ?? 0)}.`;
  if (Array.isArray(value) && value.length > (limit.items ?? Infinity))
    return `"${name}" has ${number(value.length)} items: give at most ${number(limit.items ?? 0)}.`;
  if (typeof value === 'number' && !(Math.abs(value) <= (limit.size ?? Infinity)))
    return `"${name}" is ${value}: give at most ${number(limit.size ?? 0)}.`;
  return null;
};

const MOST_PROBLEMS = 10;

class InputCheck {
  readonly problems: FieldProblem[] = [];

  value(value: unknown, type: GraphQLInputType, limit: InputLimit, path: string): void {
    if (value === null || value === undefined || this.problems.length >= MOST_PROBLEMS) return;
    const message = problemOf(path.replace(/^input\./, ''), value, limit);
    if (message !== null) {
      this.problems.push({ field: path.replace(/^input\./, ''), message });
      return;
    }
    const plain = getNullableType(type);
    if (isListType(plain) && Array.isArray(value)) {
      const item = plain.ofType as GraphQLInputType;
      for (const [index, one] of value.entries()) this.value(one, item, limit, `${path}.${index}`);
      return;
    }
    if (!isInputObjectType(plain) || typeof value !== 'object') return;
    const fields = plain.getFields();
    for (const [name, inner] of Object.entries(value)) {
      const field = fields[name];
      if (field !== undefined) this.field(field, plain.name, inner, `${path}.${name}`);
    }
  }

  field(
    of: GraphQLInputField | GraphQLArgument,
    owner: string,
    value: unknown,
    path: string,
  ): void {
    this.value(value, of.type, limitOf(`${owner}.${of.name}`, of.type), path);
  }
}

/**
 * Holds the arguments of a field to their limits, all the way down.
 *
 * @throws RequestError `VALIDATION` that names each field, what it has and what it may have.
 */
export const expectWithinLimits = (
  place: string,
  args: readonly GraphQLArgument[],
  given: Readonly<Record<string, unknown>>,
): void => {
  const check = new InputCheck();
  for (const argument of args) check.field(argument, place, given[argument.name], argument.name);
  if (check.problems.length > 0) throw fieldError(...check.problems);
};
