import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { GraphQLSchemaHost } from '@nestjs/graphql';
import { isEnumType, isInputObjectType, isObjectType, printSchema } from 'graphql';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RunningApi, startApi } from './harness.js';

const committed = fileURLToPath(new URL('../../docs/schema.graphql', import.meta.url));

describe('the schema', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi({ signedIn: false });
  });
  afterAll(() => api.close());

  const schema = () => api.served.app.get(GraphQLSchemaHost).schema;

  it('is the one committed in docs/schema.graphql (WRITE_SCHEMA=1 npm run schema writes it)', () => {
    const printed = `${printSchema(schema())}\n`;
    if (process.env['WRITE_SCHEMA'] === '1') writeFileSync(committed, printed);
    expect(existsSync(committed)).toBe(true);
    expect(readFileSync(committed, 'utf8')).toBe(printed);
  });

  it('describes every type, field, argument and enum value', () => {
    const bare: string[] = [];
    const note = (path: string, description: string | null | undefined): void => {
      if (description === undefined || description === null || description.trim() === '')
        bare.push(path);
    };
    for (const type of Object.values(schema().getTypeMap())) {
      if (
        type.name.startsWith('__') ||
        ['Query', 'Mutation', 'String', 'Int', 'Float', 'Boolean', 'ID'].includes(type.name)
      )
        continue;
      note(type.name, type.description);
    }
    for (const type of Object.values(schema().getTypeMap())) {
      if (type.name.startsWith('__')) continue;
      if (isObjectType(type)) {
        for (const field of Object.values(type.getFields())) {
          note(`${type.name}.${field.name}`, field.description);
          for (const argument of field.args)
            note(`${type.name}.${field.name}(${argument.name})`, argument.description);
        }
      } else if (isInputObjectType(type)) {
        for (const field of Object.values(type.getFields()))
          note(`${type.name}.${field.name}`, field.description);
      } else if (isEnumType(type)) {
        for (const value of type.getValues()) note(`${type.name}.${value.name}`, value.description);
      }
    }
    expect(bare).toEqual([]);
  });
});
