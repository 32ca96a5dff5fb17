import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { GraphQLSchemaHost } from '@nestjs/graphql';
import {
  getNullableType,
  type GraphQLInputType,
  isEnumType,
  isInputObjectType,
  isObjectType,
  printSchema,
  validateSchema,
} from 'graphql';
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

  it('is sound: a server that starts does not look', () => {
    expect(validateSchema(schema())).toEqual([]);
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

  it('a correction asks for a field in the words and the type of the creation', () => {
    const inputs = new Map(
      Object.values(schema().getTypeMap())
        .filter(isInputObjectType)
        .map((type) => [type.name, type.getFields()]),
    );
    const asked = ({ type, description }: { type: GraphQLInputType; description?: unknown }) =>
      `${String(getNullableType(type))}: ${String(description)}`;
    const pairs: string[] = [];
    for (const [name, correction] of inputs) {
      const record = /^(?:Correct|Revise)(.+)$/.exec(name)?.[1] ?? '';
      const creation = ['Create', 'Define', 'Record']
        .map((made) => inputs.get(`${made}${record}`))
        .find((found) => found !== undefined);
      if (creation === undefined || name === 'CorrectCareInput') continue;
      pairs.push(name);
      for (const [field, given] of Object.entries(creation))
        if (field !== 'id' && correction[field] !== undefined)
          expect(asked(correction[field]), `${name}.${field}`).toBe(asked(given));
    }
    expect(pairs.sort()).toEqual([
      'CorrectFishDealInput',
      'CorrectFishInput',
      'CorrectLineInput',
      'CorrectShowResultInput',
      'CorrectSpawnInput',
      'CorrectTraitInput',
      'CorrectVesselInput',
      'CorrectWaterInput',
      'ReviseLocusInput',
      'ReviseScoreSheetInput',
    ]);
  });

  it('every record tells its id, its revision and its withdrawal in the same words', () => {
    const told = new Map<string, Set<string>>();
    let records = 0;
    for (const type of Object.values(schema().getTypeMap())) {
      if (!isObjectType(type)) continue;
      const fields = type.getFields();
      if (fields['withdrawn'] === undefined || fields['revision'] === undefined) continue;
      records += 1;
      for (const name of ['id', 'revision', 'withdrawn', 'history']) {
        const field = fields[name];
        if (field === undefined) continue;
        const words = told.get(name) ?? new Set();
        told.set(name, words.add(`${String(field.type)}: ${String(field.description)}`));
      }
    }
    expect(records).toBeGreaterThan(9);
    expect([...told].map(([name, words]) => [name, words.size])).toEqual([
      ['id', 1],
      ['revision', 1],
      ['withdrawn', 1],
      ['history', 1],
    ]);
  });
});
