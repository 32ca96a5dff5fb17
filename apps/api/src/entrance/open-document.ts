import { type DocumentNode, Kind, parse, type SelectionSetNode } from 'graphql';

/** Tokens of a document before sign-in: setting up with all its fields takes some sixty. */
const MOST_TOKENS = 200;
const DEEPEST = 3;
const MOST_FRAGMENTS = 2;

type Fragments = ReadonlyMap<string, SelectionSetNode>;

/** True when nothing lies deeper than so many levels; a fragment that holds itself never ends, so it is too deep. */
const isShallow = (set: SelectionSetNode, fragments: Fragments, levels: number): boolean =>
  levels >= 0 &&
  set.selections.every((one) => {
    if (one.kind === Kind.INLINE_FRAGMENT) return false;
    const inner = one.kind === Kind.FIELD ? one.selectionSet : fragments.get(one.name.value);
    return inner === undefined || isShallow(inner, fragments, levels - 1);
  });

const read = (query: string): DocumentNode | null => {
  try {
    return parse(query, { maxTokens: MOST_TOKENS, noLocation: true });
  } catch {
    return null;
  }
};

/**
 * True for a document that may run without a session: one operation that asks for one field that is open to all, under its
 * own name. So whoever has not signed in can neither read the schema nor have work done many times over.
 */
export const isOpenDocument = (query: unknown, open: ReadonlySet<string>): boolean => {
  const document = typeof query === 'string' ? read(query) : null;
  const [operation, ...more] = document?.definitions ?? [];
  if (operation?.kind !== Kind.OPERATION_DEFINITION || more.length > MOST_FRAGMENTS) return false;
  const fragments = new Map<string, SelectionSetNode>();
  for (const one of more) {
    if (one.kind !== Kind.FRAGMENT_DEFINITION) return false;
    fragments.set(one.name.value, one.selectionSet);
  }
  const { selections } = operation.selectionSet;
  const asked = selections.filter(
    (one) => one.kind !== Kind.FIELD || one.name.value !== '__typename',
  );
  const [field] = asked;
  if (field?.kind !== Kind.FIELD || asked.length > 1 || selections.length > 2) return false;
  return (
    field.alias === undefined &&
    open.has(field.name.value) &&
    (field.selectionSet === undefined || isShallow(field.selectionSet, fragments, DEEPEST))
  );
};

/** True for a document whose one operation asks for fields of these names and no others, under whatever names. */
export const asksOnlyFor = (query: unknown, names: ReadonlySet<string>): boolean => {
  const document = typeof query === 'string' ? read(query) : null;
  const operations = (document?.definitions ?? []).filter(
    (one) => one.kind === Kind.OPERATION_DEFINITION,
  );
  const [operation] = operations;
  return (
    operation !== undefined &&
    operations.length === 1 &&
    operation.selectionSet.selections.every(
      (one) =>
        one.kind === Kind.FIELD && (one.name.value === '__typename' || names.has(one.name.value)),
    )
  );
};
