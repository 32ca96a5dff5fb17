import type { ApolloServerPlugin, BaseContext } from '@apollo/server';
import { ApolloArmor } from '@escape.tech/graphql-armor';
import { GraphQLError, type GraphQLSchema } from 'graphql';
import { fieldExtensionsEstimator, getComplexity, simpleEstimator } from 'graphql-query-complexity';

/** Tokens of one document; graphql-js stops reading there. */
export const MOST_TOKENS = 2_000;

const LARGEST_COST = 25_000;

/** What one request may ask for. The viewer's largest operation stays below half of each. */
const armor = new ApolloArmor({
  maxDepth: { n: 12 },
  maxAliases: { n: 20 },
  maxTokens: { enabled: false },
  maxDirectives: { n: 20 },
  blockFieldSuggestion: { enabled: false },
  costLimit: { enabled: false },
});

/** A list costs its page size times what each of its rows costs. */
const rowsAsked = ({
  args,
  childComplexity,
}: {
  args: Record<string, unknown>;
  childComplexity: number;
}): number | undefined => {
  const first = args['first'];
  return typeof first === 'number' ? 1 + Math.max(1, first) * childComplexity * 0.5 : undefined;
};

/** Counts the fields a request could touch before any of it runs. */
const fieldCost = (schema: () => GraphQLSchema): ApolloServerPlugin<BaseContext> => ({
  requestDidStart: () =>
    Promise.resolve({
      didResolveOperation: ({ request, document }) => {
        const cost = getComplexity({
          schema: schema(),
          query: document,
          ...(request.operationName !== undefined && { operationName: request.operationName }),
          variables: request.variables ?? {},
          estimators: [
            fieldExtensionsEstimator(),
            rowsAsked,
            simpleEstimator({ defaultComplexity: 1 }),
          ],
        });
        if (cost <= LARGEST_COST) return Promise.resolve();
        throw new GraphQLError(
          `This request would touch about ${Math.round(cost)} fields; the limit is ${LARGEST_COST}. Ask for fewer rows ("first") or fewer fields.`,
          { extensions: { code: 'QUERY_TOO_COSTLY', http: { status: 400 } } },
        );
      },
    }),
});

export const protection = (): {
  plugins: ApolloServerPlugin<BaseContext>[];
  validationRules: ReturnType<ApolloArmor['protect']>['validationRules'];
} => {
  const { plugins, validationRules } = armor.protect();
  let schema: GraphQLSchema | null = null;
  const keepSchema: ApolloServerPlugin<BaseContext> = {
    serverWillStart: ({ schema: built }) => {
      schema = built;
      return Promise.resolve();
    },
  };
  const known = (): GraphQLSchema => {
    if (schema === null) throw new Error('The schema is asked for before the server started.');
    return schema;
  };
  return {
    // The armor is typed against Apollo's CommonJS build; at run time the plugins are the same.
    plugins: [
      keepSchema,
      fieldCost(known),
      ...(plugins as unknown as ApolloServerPlugin<BaseContext>[]),
    ],
    validationRules,
  };
};
