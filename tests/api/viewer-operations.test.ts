import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { join } from 'node:path';
import { GraphQLSchemaHost } from '@nestjs/graphql';
import {
  type DocumentNode,
  type FragmentDefinitionNode,
  type GraphQLInputType,
  type GraphQLSchema,
  Kind,
  type NamedTypeNode,
  type OperationDefinitionNode,
  parse,
  typeFromAST,
  visit,
} from 'graphql';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { costOf, LARGEST_COST } from '../../apps/api/src/graphql/limits.js';
import { type RunningApi, startApi } from './harness.js';
import { modest, valueOf } from './typed-values.js';

const folder = fileURLToPath(new URL('../../apps/viewer/src/', import.meta.url));

const documents = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((file) => /\.tsx?$/.test(file) && !file.endsWith('.d.ts'))
  .flatMap((file) =>
    [...readFileSync(join(folder, file), 'utf8').matchAll(/graphql\(\s*`([^`]+)`/g)].map(
      ([, text]) => parse(text ?? ''),
    ),
  );
const fragments = new Map(
  documents
    .flatMap(({ definitions }) => definitions)
    .filter((one) => one.kind === Kind.FRAGMENT_DEFINITION)
    .map((one) => [one.name.value, one]),
);

/** The operation with the fragments it names, however deep. */
const whole = (document: DocumentNode): DocumentNode => {
  const wanted = new Map<string, FragmentDefinitionNode>();
  const gather = (node: DocumentNode | FragmentDefinitionNode): void => {
    visit(node, {
      FragmentSpread: ({ name }) => {
        const found = fragments.get(name.value);
        if (found === undefined || wanted.has(name.value)) return;
        wanted.set(name.value, found);
        gather(found);
      },
    });
  };
  gather(document);
  return { ...document, definitions: [...document.definitions, ...wanted.values()] };
};

const operations = documents.flatMap((document) => {
  const [first] = document.definitions;
  return first?.kind === Kind.OPERATION_DEFINITION
    ? [{ name: first.name?.value ?? '', document: whole(document) }]
    : [];
});

/** The largest page a screen asks for; a row of pairs holds much, so few are asked for at once. */
const pageOf = ({ name }: OperationDefinitionNode): number =>
  name?.value === 'PairingCandidates' ? 100 : 200;

const variablesOf = (schema: GraphQLSchema, { definitions }: DocumentNode) => {
  const [operation] = definitions;
  if (operation?.kind !== Kind.OPERATION_DEFINITION) return {};
  return Object.fromEntries(
    (operation.variableDefinitions ?? []).map(({ variable: { name }, type }) => {
      const found = typeFromAST(schema, type as NamedTypeNode) as GraphQLInputType;
      return [
        name.value,
        name.value === 'first' ? pageOf(operation) : valueOf(found, modest, name.value),
      ];
    }),
  );
};

describe('what the viewer asks for', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi({ signedIn: false });
  });
  afterAll(() => api.close());

  it.each(operations)('$name stays within the limit of cost', ({ document }) => {
    const { schema } = api.served.app.get(GraphQLSchemaHost);
    const cost = costOf(schema, document, variablesOf(schema, document));
    expect(cost).toBeLessThan(LARGEST_COST);
    expect(cost).toBeGreaterThan(0);
  });

  it('is all of it', () => {
    expect(operations.length).toBeGreaterThan(60);
  });
});
