import type { ApolloServerPlugin, BaseContext } from '@apollo/server';
import {
  type FieldNode,
  GraphQLError,
  type GraphQLResolveInfo,
  Kind,
  type SelectionNode,
} from 'graphql';

/** Values of one answer, lists counted as they are made: some 5 MB of text. */
export const LARGEST_ANSWER = 150_000;

const counted = new WeakMap<object, number>();
const leavesOf = new WeakMap<FieldNode, number>();

const leavesIn = (selections: readonly SelectionNode[], info: GraphQLResolveInfo): number =>
  selections.reduce((sum, one) => {
    if (one.kind === Kind.FIELD)
      return (
        sum + (one.selectionSet === undefined ? 1 : leavesIn(one.selectionSet.selections, info))
      );
    const set = one.kind === Kind.INLINE_FRAGMENT ? one : info.fragments[one.name.value];
    return sum + (set === undefined ? 0 : leavesIn(set.selectionSet.selections, info));
  }, 0);

const leaves = (info: GraphQLResolveInfo): number => {
  const [node] = info.fieldNodes;
  if (node === undefined) return 1;
  const known = leavesOf.get(node) ?? Math.max(1, leavesIn([node], info));
  leavesOf.set(node, known);
  return known;
};

const lengthOf = (list: readonly unknown[]): number =>
  Array.isArray(list[0])
    ? list.reduce<number>((sum, row) => sum + (row as unknown[]).length, 0)
    : list.length;

/**
 * Counts what a list adds to the answer before its items are worked out, and refuses what would make it too large.
 *
 * @throws GraphQLError `ANSWER_TOO_LARGE`.
 */
export const countList = (
  context: object,
  list: readonly unknown[],
  info: GraphQLResolveInfo,
): void => {
  const total = (counted.get(context) ?? 0) + lengthOf(list) * leaves(info);
  counted.set(context, total);
  if (total <= LARGEST_ANSWER) return;
  throw tooLarge();
};

const tooLarge = (): GraphQLError =>
  new GraphQLError(
    `This answer would hold more than ${LARGEST_ANSWER.toLocaleString('en')} values: ask for fewer rows ("first"), fewer fields, or less inside one another.`,
    { extensions: { code: 'ANSWER_TOO_LARGE' } },
  );

/** What was made before it grew too large is not sent: half an answer would be taken for a whole one. */
export const wholeAnswers: ApolloServerPlugin<BaseContext> = {
  requestDidStart: () =>
    Promise.resolve({
      willSendResponse: ({ contextValue, response: { body } }) => {
        if ((counted.get(contextValue) ?? 0) > LARGEST_ANSWER && body.kind === 'single')
          body.singleResult = { errors: [tooLarge().toJSON()] };
        return Promise.resolve();
      },
    }),
};
