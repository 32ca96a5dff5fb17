import { GraphQLSchemaHost } from '@nestjs/graphql';
import type { DataSource } from 'typeorm';
import { createHash, randomUUID } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PhotoFiles } from '../../apps/api/src/photo-files/photo-files.js';
import { openOperations } from '../../apps/api/src/accounts/session.guard.js';
import { documentOf, documentsByField, type Operation } from './hostile-values.js';
import { variablesOf } from './hidden-records.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';
import { lesserAccount, type LesserAccount } from './lesser-account.js';
import { type MarkedLine, markedLine, PICTURE, plain, type Rule, RULES } from './marked-stock.js';

const PARTS = ['scores', 'photos', 'notes', 'water', 'place', 'prices'] as const;
const DEPTH = 3;
/** A fish of no line, behind the line that is lent. */
const ANCESTOR = randomUUID();

/** What somebody was granted of a line. */
interface Granted {
  readonly level: 'look' | 'score' | 'breed';
  readonly parts: readonly string[];
  /** With the names of ancestors outside of the line. */
  readonly ancestors?: true;
}

const look = (...parts: string[]): Granted => ({ level: 'look', parts });
const ACTORS: Readonly<Record<string, Granted>> = {
  'to look, no part': look(),
  ...Object.fromEntries(PARTS.map((part) => [`to look, ${part}`, look(part)])),
  'to look, ancestors named': { ...look(), ancestors: true },
  'to score, no part': { level: 'score', parts: [] },
  'to breed with, no part': { level: 'breed', parts: [] },
  'to breed with, every part': { level: 'breed', parts: PARTS },
};

/** The rule, said once more and otherwise than in the policies. */
const maySee = (rule: Rule, { level, parts }: Granted): boolean => {
  if (rule === 'line') return true;
  if (rule === 'never') return false;
  if (rule === 'scales') return parts.includes('scores') || level !== 'look';
  return rule
    .split('+')
    .every((need) => (need === 'breed' ? level === 'breed' : parts.includes(need)));
};

let api: RunningApi;
let records: DataSource;
let lent: MarkedLine;
let hidden: MarkedLine;
let queries: { name: string; kind: 'query'; operation: Operation }[];
/** What each actor was told by all queries together. */
const told = new Map<string, string>();
const guests = new Map<string, LesserAccount>();

beforeAll(async () => {
  api = await startApi();
  records = await recordsOf(api);
  const [owner] = (await records.query('SELECT id FROM person WHERE here')) as { id: string }[];
  lent = await markedLine(records, 'zlent', owner?.id ?? '');
  hidden = await markedLine(records, 'zhidden', owner?.id ?? '');
  await records.query(
    `INSERT INTO fish (id, person_id, tag, name, origin, note, sex, disposition) VALUES ($1, $2, 'zancestortag', 'zancestorname', 'zancestororigin', 'zancestornote', 'male', 'keeper')`,
    [ANCESTOR, owner?.id],
  );
  await records.query('UPDATE spawn SET sire_id = $1 WHERE id = $2', [
    ANCESTOR,
    lent.ids.get('spawn'),
  ]);
  const picture = api.served.app.get(PhotoFiles, { strict: false }).pathOf(PICTURE, 'full');
  mkdirSync(dirname(picture), { recursive: true });
  writeFileSync(picture, 'a picture');
  const { schema } = api.served.app.get(GraphQLSchemaHost);
  queries = Object.values(schema.getQueryType()?.getFields() ?? {})
    .filter(({ name }) => !openOperations.has(name))
    .map((operation) => ({ name: operation.name, kind: 'query' as const, operation }));
  for (const [actor, { level, parts, ancestors }] of Object.entries(ACTORS)) {
    const guest = await lesserAccount(api);
    guests.set(actor, guest);
    const columns = PARTS.map((part) => parts.includes(part));
    await records.query(
      `INSERT INTO line_grant (account_id, line_id, level, ${PARTS.join(', ')}, ancestors) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
      [guest.id, lent.ids.get('line'), level, ...columns, ancestors === true],
    );
  }
  // Query by query, and not guest by guest: the server keeps what it has read of a document for whoever asks next.
  for (const query of queries)
    for (const [actor, guest] of guests) {
      const answer = await everything(guest, query, linesAskedFor(ACTORS[actor]!));
      told.set(actor, `${told.get(actor) ?? ''}${answer}\n`);
    }
}, 1_800_000);
afterAll(() => api.close());

/** What the server answers, by query and what it is given: as deep as it lets anyone ask, structure by structure where all is too much. */
const documents = new Map<string, readonly string[]>();
const TOO_MUCH = /^(QUERY_TOO_COSTLY|GRAPHQL_VALIDATION_FAILED|GRAPHQL_PARSE_FAILED)$/;

type Asked = (typeof queries)[number];

const allowed = async (
  { send }: Pick<LesserAccount, 'send'>,
  { kind, operation }: Asked,
  variables: object,
): Promise<string[]> => {
  const given = Object.keys(variables);
  const isTaken = async (document: string): Promise<boolean> =>
    !TOO_MUCH.test((await send(document, variables)).errors?.[0]?.extensions.code ?? '');
  const whole = documentOf(kind, operation, given, DEPTH);
  if (await isTaken(whole)) return [whole];
  const found = [documentOf(kind, operation, given, 0)];
  for (let k = 0; k < documentsByField(operation, given, 1).length; k += 1)
    for (let depth = DEPTH; depth > 0; depth -= 1) {
      const document = documentsByField(operation, given, depth)[k]!;
      if (!(await isTaken(document))) continue;
      found.push(document);
      break;
    }
  return found;
};

const ask = async (
  guest: Pick<LesserAccount, 'send'>,
  query: Asked,
  variables: object,
): Promise<string> => {
  const asked = [query.name, ...Object.keys(variables)].join();
  if (!documents.has(asked)) documents.set(asked, await allowed(guest, query, variables));
  const texts: string[] = [];
  for (const document of documents.get(asked)!)
    texts.push((await guest.send(document, variables)).text);
  return texts.join('\n');
};

/** Of the hidden line by id it is enough to ask for who sees least and who sees most. */
const linesAskedFor = ({ level, parts }: Granted): readonly MarkedLine[] =>
  (level === 'look') === (parts.length === 0) ? [lent, hidden] : [lent];

/** A query with ids of the line and of the hidden one, as deep as is allowed. */
const everything = async (
  guest: Pick<LesserAccount, 'send'>,
  query: Asked,
  lines: readonly MarkedLine[],
): Promise<string> => {
  const texts: string[] = [];
  for (const of of lines) {
    const asked = variablesOf(query, (table) => of.ids.get(table) ?? randomUUID());
    // Of the hidden line by id alone: lists are the same.
    // With the least that it takes, and with all: that by the ends alone.
    for (const variables of of === hidden ? asked.slice(1, 2) : asked.slice(0, lines.length))
      texts.push(await ask(guest, query, variables));
  }
  return texts.join('\n');
};

const columnsWhere = (which: (rule: Rule) => boolean): string[] =>
  Object.entries(RULES).flatMap(([table, columns]) =>
    Object.entries(columns).flatMap(([column, rule]) =>
      which(rule) ? [`${table}.${column}`] : [],
    ),
  );

describe('who sees what of a line that is shared', () => {
  it('is said of every text column that the database has', async () => {
    const rows = (await records.query(
      `SELECT c.table_name || '.' || c.column_name AS name FROM information_schema.columns c
       JOIN information_schema.tables t USING (table_schema, table_name)
       WHERE c.table_schema = current_schema() AND t.table_type = 'BASE TABLE' AND c.data_type = 'text'`,
    )) as { name: string }[];
    const said = new Set(columnsWhere(() => true));
    const unsaid = rows
      .map(({ name }) => name)
      .filter((name) => !said.has(name) && !plain.some((pattern) => pattern.test(name)));
    expect(unsaid).toEqual([]);
  });

  it('reaches what there is to see: somebody with every part is told of each of them', () => {
    const text = told.get('to breed with, every part') ?? '';
    const seen = columnsWhere(() => true).filter((name) => text.includes(lent.marks.get(name)!));
    // A row that no answer can hold would hide what stands beside it.
    expect(/cannot represent|INTERNAL/.exec(text)?.[0] ?? null).toBeNull();
    expect(seen.length).toBeGreaterThan(30);
    // With whom a fish swims is a person, and no text: tests/api/line-grants.test.ts holds it.
    for (const rule of [
      ...['line', 'scales', 'scores', 'photos', 'notes', 'water'],
      ...['scores+notes', 'water+notes', 'photos+notes', 'breed+notes', 'prices+notes'],
    ])
      expect([
        rule,
        seen.some((name) => columnsWhere((one) => one === rule).includes(name)),
      ]).toEqual([rule, true]);
  });

  it.each(Object.keys(ACTORS))(
    '%s: nothing that was not granted, and all of that part that was',
    (actor) => {
      const text = told.get(actor) ?? '';
      const granted = ACTORS[actor]!;
      const whole = told.get('to breed with, every part') ?? '';
      const tells = (name: string): boolean => text.includes(lent.marks.get(name)!);
      const leaked = columnsWhere((rule) => !maySee(rule, granted)).filter(tells);
      expect(leaked).toEqual([]);
      const missed = columnsWhere((rule) => maySee(rule, granted)).filter(
        (name) => whole.includes(lent.marks.get(name)!) && !tells(name),
      );
      expect(missed).toEqual([]);
    },
  );

  it.each(Object.keys(ACTORS))(
    '%s: of an ancestor outside the line its tag, if granted',
    (actor) => {
      const text = told.get(actor) ?? '';
      expect(/zancestor(name|origin|note)/.exec(text)?.[0] ?? null).toBeNull();
      expect(text.includes('zancestortag')).toBe(ACTORS[actor]!.ancestors === true);
    },
  );

  it.each(Object.keys(ACTORS))(
    '%s: nothing of a line that was not granted, words and ids',
    (actor) => {
      const text = told.get(actor) ?? '';
      // Traits and sheets are of no line: whoever may see or give scores knows them all.
      const common = maySee('scales', ACTORS[actor]!)
        ? columnsWhere((rule) => rule === 'scales')
        : [];
      const found = [...hidden.marks].filter(
        ([name, mark]) => text.includes(mark) && !common.includes(name),
      );
      expect(found).toEqual([]);
    },
  );

  it('holds for pictures, and the calendar is theirs alone', async () => {
    for (const [actor, { parts }] of Object.entries(ACTORS)) {
      const guest = guests.get(actor)!;
      const statusOf = async (id: string = randomUUID()): Promise<number> =>
        (await guest.http(`/photos/${id}`)).status;
      const fishIds = [lent.ids.get('fish'), hidden.ids.get('fish')];
      const { data } = await guest.send(
        'query ($fishIds: [ID!]!) { fishPictures(fishIds: $fishIds) { fishId photo { id } } }',
        { fishIds },
      );
      const beside = (data as { fishPictures: { fishId: string; photo: unknown }[] }).fishPictures;
      expect([
        actor,
        beside.filter(({ photo }) => photo !== null).map(({ fishId }) => fishId),
      ]).toEqual([actor, parts.includes('photos') ? [lent.ids.get('fish')] : []]);
      const statuses = [
        await statusOf(lent.ids.get('photo')),
        await statusOf(hidden.ids.get('photo')),
        await statusOf(),
      ];
      expect([actor, ...statuses]).toEqual([
        ...[actor, parts.includes('photos') ? 200 : 404, 404, 404],
      ]);
      const secret = createHash('sha256').update(actor).digest('base64url');
      await records.query(
        `INSERT INTO calendar_address (person_id, secret_hash) VALUES ($1, encode(sha256($2::bytea), 'hex'))`,
        [guest.id, secret],
      );
      const calendar = await (await fetch(`${api.url}/calendar/${secret}.ics`)).text();
      expect(calendar).toContain('BEGIN:VCALENDAR');
      expect([...hidden.marks.values()].filter((mark) => calendar.includes(mark))).toEqual([]);
      const leaked = columnsWhere((rule) => !maySee(rule, ACTORS[actor]!)).filter((name) =>
        calendar.includes(lent.marks.get(name)!),
      );
      expect([actor, leaked]).toEqual([actor, []]);
    }
  });
});
