import type { ApolloServerPlugin, BaseContext } from '@apollo/server';
import { ApolloArmor } from '@escape.tech/graphql-armor';
import {
  type DocumentNode,
  getNamedType,
  getNullableType,
  GraphQLError,
  type GraphQLOutputType,
  type GraphQLSchema,
  isListType,
  isObjectType,
} from 'graphql';
import { keepWhileReading } from './once-a-request.js';
import { wholeAnswers } from './answer-size.js';
import { workOf } from './work-costs.js';
import {
  type ComplexityEstimator,
  type ComplexityEstimatorArgs,
  fieldExtensionsEstimator,
  getComplexity,
  simpleEstimator,
} from 'graphql-query-complexity';

/** Tokens of one document; graphql-js stops reading there. */
export const MOST_TOKENS = 2_000;

export const LARGEST_COST = 25_000;

/** What one request may ask for. The viewer's largest operation stays below half of each. */
const armor = new ApolloArmor({
  maxDepth: { n: 12 },
  maxAliases: { n: 20 },
  maxTokens: { enabled: false },
  maxDirectives: { n: 20 },
  blockFieldSuggestion: { enabled: false },
  costLimit: { enabled: false },
});

/** Rows to reckon with in a list that is not paged: a spawn has its whole brood, most other lists are short. */
const usualLength = (list: GraphQLOutputType): number =>
  getNamedType(list).name === 'Fish' ? 100 : 10;

/** A list costs its page size, or its usual length, times what each of its rows costs. */
const rowsAsked = ({ type, field, args, childComplexity }: ComplexityEstimatorArgs) => {
  const first: unknown = args['first'];
  // The rows of a page are counted where it is asked for.
  if (isObjectType(type) && type.name.endsWith('Connection')) return undefined;
  if (typeof first !== 'number' && !isListType(getNullableType(field.type))) return undefined;
  const rows = typeof first === 'number' ? Math.max(1, first) : usualLength(field.type);
  return 1 + rows * childComplexity * 0.5;
};

const usual: readonly ComplexityEstimator[] = [
  fieldExtensionsEstimator(),
  rowsAsked,
  simpleEstimator({ defaultComplexity: 1 }),
];

/** An operation costs its answer and its work. */
const withWork =
  (schema: GraphQLSchema): ComplexityEstimator =>
  (asked) => {
    const answer = usual.map((estimate) => estimate(asked)).find((cost) => cost !== undefined) ?? 1;
    const isOperation = [schema.getQueryType(), schema.getMutationType()].some(
      (root) => root === asked.type,
    );
    return answer + (isOperation ? workOf(asked.type.name, asked.field) : 0);
  };

/** About how many fields a document touches, counted before any of it runs; work that is not seen in its fields counts as so many. */
export const costOf = (
  schema: GraphQLSchema,
  query: DocumentNode,
  variables: Record<string, unknown>,
  operationName?: string,
): number =>
  getComplexity({
    ...{ schema, query, variables },
    ...(operationName !== undefined && { operationName }),
    estimators: [withWork(schema)],
  });

const fieldCost = (schema: () => GraphQLSchema): ApolloServerPlugin<BaseContext> => ({
  requestDidStart: () =>
    Promise.resolve({
      didResolveOperation: ({ request, document }) => {
        const { variables = {}, operationName } = request;
        const cost = costOf(schema(), document, variables, operationName);
        if (cost <= LARGEST_COST) return Promise.resolve();
        throw new GraphQLError(
          `This request would touch about ${Math.round(cost)} fields, or do the work of as many; the limit is ${LARGEST_COST}. Ask for fewer rows ("first"), fewer fields, or fewer operations at once.`,
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
      wholeAnswers,
      keepWhileReading,
      ...(plugins as unknown as ApolloServerPlugin<BaseContext>[]),
    ],
    validationRules,
  };
};
