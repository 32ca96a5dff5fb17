import {
  getNamedType,
  type GraphQLArgument,
  type GraphQLField,
  type GraphQLInputType,
  type GraphQLOutputType,
  isNonNullType,
  isObjectType,
} from 'graphql';
import { limitOf } from '../../apps/api/src/graphql/input-limits.js';
import { type Making, valueOf } from './typed-values.js';

export type Operation = GraphQLField<unknown, unknown>;

/** Ids of real records by what they are of, so that hostile sizes get past "there is none". */
export type RealIds = Readonly<Record<string, readonly string[]>>;

/** Words that mean something, so that a request comes as far as the work. */
const WORDS: readonly (readonly [RegExp, string])[] = [
  [/\.zone$/, 'UTC'],
  [/\.locusId$/, 'dt'],
  [/\.genotype$/, '?/?'],
  [/\.(fraction|share|survival)$/i, '1/3'],
  [/\.fileName$/, 'a.csv'],
];

/** What an id is of, by its field and, where that says too little, by its place and the operation it is given to. */
const KINDS: readonly (readonly [RegExp, string])[] = [
  [/sire/i, 'males'],
  [/dam/i, 'females'],
  [/photo/i, 'photos'],
  [/computation/i, 'computations'],
  [/importRun/i, 'importRuns'],
  [/takeBackImport|takeBackPreview/i, 'imports'],
  [/fishAct/i, 'acts'],
  [/pairing/i, 'pairings'],
  [/spawn|care/i, 'spawns'],
  [/trait/i, 'traits'],
  [/sheet/i, 'sheets'],
  [/line(?!dIn)/i, 'lines'],
  [/fish|parent|aId|bId|score|geno|pheno/i, 'fish'],
];

/** Ids that whoever sends them makes: of a new record, and of the entry itself. */
const OWN =
  /^((Create|Record|Plan|Define|Start|Skip|Begin|TraitScore|ScoreOn|ClassCount|Spawn(Event|Count|Loss))\w*Input\.id|\w+\.entryId)$/;

const realId = (ids: RealIds, operation: string): ((place: string) => string | undefined) => {
  let taken = 0;
  return (place) => {
    if (OWN.test(place)) return undefined;
    const name = place.slice(place.lastIndexOf('.') + 1);
    const kind = [name, operation, place]
      .map((words) => KINDS.find(([pattern]) => pattern.test(words)))
      .find((found) => found !== undefined);
    const list = ids[kind?.[1] ?? ''] ?? [];
    taken += 1;
    return list[taken % list.length];
  };
};

const LONGEST_TEXT = 1_000_000;
/** Values of one request together stay below what the entrance takes. */
const INNER_LISTS = 5;

export interface Limits {
  readonly characters: number;
  readonly items: number;
  readonly size: number;
}

/** By place, as `limitOf` tells them for every argument and field that can be reached from an operation. */
type LimitAt = (place: string) => Limits;

const makings = (
  at: LimitAt,
  ids: RealIds,
  owner: string,
  operation: string,
): Readonly<Record<string, Making>> => {
  const outer = (place: string, depth: number): number => (depth <= 2 ? at(place).items : 1);
  const inner = (place: string, depth: number): number =>
    depth <= 2 ? INNER_LISTS : at(place).items;
  const long = (place: string): string => 'x'.repeat(Math.min(at(place).characters, LONGEST_TEXT));
  const meant = (place: string): string =>
    WORDS.find(([pattern]) => pattern.test(place))?.[1] ?? long(place);
  // A question leaves what it is about as it was, so that all are asked about the same; what was changed is not changed again.
  const changing = realId(ids, operation) as (place: string) => string;
  const chosen = (): typeof changing =>
    owner === 'Query' ? (realId(ids, operation) as typeof changing) : changing;
  // Of a record that nobody has changed yet, so that what is asked for is done.
  const number = (place: string): number => (/\.revision$/.test(place) ? 1 : at(place).size);
  return {
    'all at their limits': { text: long, number: (p) => at(p).size, length: outer, all: true },
    'all over their limits': {
      text: (p) => `${long(p)}x`.repeat(2),
      number: () => 2_147_483_647,
      length: (p, depth) => outer(p, depth) + 1,
      all: true,
    },
    'long lists that mean something': {
      ...{ text: meant, number, length: outer, all: true, id: chosen() },
    },
    'long lists inside others': {
      ...{ text: meant, number: () => 1, length: inner, all: true, id: chosen() },
    },
    'the least of everything': {
      ...{ text: () => '', number: (p) => -at(p).size, length: () => 0, all: true, id: chosen() },
    },
    'only what must be given': {
      text: meant,
      number,
      length: outer,
      all: false,
      id: chosen(),
    },
  };
};

const gather = (place: string, type: GraphQLInputType, into: Map<string, Limits>): void => {
  if (into.has(place)) return;
  const limit = limitOf(place, type);
  into.set(place, {
    characters: limit.characters ?? 0,
    items: limit.items ?? 1,
    size: limit.size ?? 0,
  });
  const named = getNamedType(type);
  if (!('getFields' in named)) return;
  for (const field of Object.values(named.getFields()))
    gather(`${named.name}.${field.name}`, field.type, into);
};

export interface HostileRequest {
  readonly name: string;
  readonly variables: Readonly<Record<string, unknown>>;
}

/** Requests of every hostile kind to one operation; the same values twice are sent once. */
export const hostileRequests = (
  owner: string,
  operation: Operation,
  ids: RealIds,
): HostileRequest[] => {
  const limits = new Map<string, Limits>();
  for (const { name, type } of operation.args)
    gather(`${owner}.${operation.name}.${name}`, type, limits);
  const at: LimitAt = (place) => limits.get(place) ?? { characters: 0, items: 1, size: 0 };
  const sent = new Set<string>();
  return Object.entries(makings(at, ids, owner, operation.name)).flatMap(([name, making]) => {
    const variables = Object.fromEntries(
      operation.args
        .filter(({ type }) => making.all || isNonNullType(type))
        .map((arg) => [
          arg.name,
          valueOf(arg.type, making, `${owner}.${operation.name}.${arg.name}`),
        ]),
    );
    // New ids apart, which are never the same.
    const key = making.id === undefined ? name : JSON.stringify(variables);
    if (sent.has(key) || (operation.args.length === 0 && sent.size > 0)) return [];
    sent.add(key);
    return [{ name, variables }];
  });
};

const isLeft = (arg: GraphQLArgument): boolean =>
  !isNonNullType(arg.type) || arg.defaultValue !== undefined;

/** All fields of an answer down to a depth that need nothing given. */
const selection = (type: GraphQLOutputType, depth: number): string => {
  const named = getNamedType(type);
  if (!isObjectType(named)) return '';
  const fields = Object.values(named.getFields()).filter(({ args }) => args.every(isLeft));
  const words = fields.flatMap((field) => {
    if (!isObjectType(getNamedType(field.type))) return [field.name];
    return depth > 0 ? [`${field.name} ${selection(field.type, depth - 1)}`] : [];
  });
  return `{ ${['__typename', ...words].join(' ')} }`;
};

/** The operation as a document for each structure in its answer, so that each is asked for further than all of them together could be. */
export const documentsByField = (
  operation: Operation,
  given: readonly string[],
  depth: number,
): string[] => {
  const named = getNamedType(operation.type);
  if (!isObjectType(named)) return [];
  return Object.values(named.getFields())
    .filter(({ type, args }) => isObjectType(getNamedType(type)) && args.every(isLeft))
    .map(({ name, type }) =>
      documentOf('query', operation, given, 0, `{ ${name} ${selection(type, depth - 1)} }`),
    );
};

/** The operation as a document; `depth` tells how far into its answer it asks. */
export const documentOf = (
  kind: 'query' | 'mutation',
  operation: Operation,
  given: readonly string[],
  depth: number,
  asked = selection(operation.type, depth),
): string => {
  const args = operation.args.filter(({ name }) => given.includes(name));
  const heads = args.map(({ name, type }) => `$${name}: ${String(type)}`).join(', ');
  const call = args.map(({ name }) => `${name}: $${name}`).join(', ');
  const inBrackets = (words: string): string => (words === '' ? '' : `(${words})`);
  return `${kind} ${inBrackets(heads)} { ${operation.name}${inBrackets(call)} ${asked} }`;
};
