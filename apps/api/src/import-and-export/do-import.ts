import { createHash, randomUUID } from 'node:crypto';
import { forNextFile, noRepairs, plainHeader, type Repairs, shapeOf } from '@linewright/repair';
import type { DataSource, EntityManager } from 'typeorm';
import { copyRecords } from '../stock/copy-in.js';
import type { NewRecord } from '../stock/bulk-insert.js';
import { endWith } from '../jobs/computation-sql.js';
import { RequestError } from '../errors/request-error.js';
import type { RecordKind } from '../database/record-kind.js';
import { writeStays } from '../stock/vessel-codes.js';
import { rememberShape, rememberedShape } from '../stock/import-shapes.js';
import type { ColumnChoice } from '../stock/rows/import-column-choice.js';
import { type CsvTable, readTable } from './csv-table.js';
import { toPreview } from './import.mapper.js';
import type { ImportPreviewModel } from './import.model.js';
import { PROBLEMS_SHOWN } from './import-problem.js';
import { loadStock } from './load-stock.js';
import { type ImportPlan, planImport } from './plan-import.js';
import type { ImportAnswer, ImportCounts, ImportTask, ImportWatcher } from './import-task.js';

/** How much of the time each part took on 100,000 rows. */
const SHARES = { read: 0.1, check: 0.1, write: 0.6, references: 0.2 };

/** Records noted by one statement. */
const NOTED_AT_ONCE = 20_000;

/** How long a file waits for another one that is being taken in; a long computation waits until it is stopped. */
const LOCK_WAIT = '5s';

export const stopped = (): RequestError =>
  new RequestError('JOB_CANCELLED', 'The import was stopped: nothing of it was saved.');

const refusal = (plan: ImportPlan): RequestError => {
  const count = plan.problems.length;
  const first = plan.problems[0]!;
  return new RequestError(
    'IMPORT_INVALID',
    `Nothing was imported: ${count === 1 ? 'one problem' : `${count} problems`}. Line ${first.line}: ${first.message} ${first.remedy}`,
    { problemCount: count, problems: plan.problems.slice(0, PROBLEMS_SHOWN) },
  );
};

const expectGoing = ({ signal }: ImportWatcher): void => {
  if (signal?.aborted === true) throw stopped();
};

/** Two imports at once would both be checked against the same stock. */
export const lockStock = async (manager: EntityManager, patient: boolean): Promise<void> => {
  if (!patient) await manager.query(`SET LOCAL lock_timeout = '${LOCK_WAIT}'`);
  try {
    await manager.query(`SELECT 1 FROM install_state WHERE id = 1 FOR UPDATE`);
  } catch (error) {
    if ((error as { code?: string }).code !== '55P03') throw error;
    throw new RequestError(
      'IMPORT_BUSY',
      'Another file is being taken in: wait until that has ended, or stop it, and try again.',
    );
  }
  if (!patient) await manager.query(`SET LOCAL lock_timeout = 0`);
};

interface Part {
  readonly table: string;
  readonly kind: RecordKind;
  readonly rows: readonly NewRecord[];
}

const partsOf = (plan: ImportPlan, { fileName, account, at, day }: ImportTask): Part[] => {
  const personId = account.keepsFor;
  const note = `from ${fileName}, which gives no day of scoring: dated on the day of import`;
  const given = { scoredOn: day, scorer: account.name, note };
  return [
    {
      table: 'line',
      kind: 'line',
      rows: plan.lines.map((l) => ({ ...l, personId, name: l.code })),
    },
    { table: 'spawn', kind: 'spawn', rows: plan.spawns.map((s) => ({ ...s, personId })) },
    {
      table: 'fish',
      kind: 'fish',
      rows: plan.fish.map((f) => ({
        ...f,
        personId,
      })),
    },
    {
      table: 'trait_definition',
      kind: 'trait',
      // A millisecond apart, so that an export has the traits in the file's order.
      rows: plan.traits.map((t, i) => ({
        ...t,
        personId,
        createdAt: new Date(at + i).toISOString(),
      })),
    },
    { table: 'score', kind: 'score', rows: plan.scores.map((s) => ({ ...s, ...given })) },
  ];
};

const write = async (
  manager: EntityManager,
  parts: readonly Part[],
  by: string,
  watcher: ImportWatcher,
  onShare: (share: number) => void,
): Promise<void> => {
  // A row goes out twice: into its table, and into the history.
  const total = parts.reduce((sum, { rows }) => sum + 2 * rows.length, 0);
  let sent = 0;
  for (const { table, kind, rows } of parts) {
    const before = sent;
    await copyRecords(manager, table, kind, rows, by, 'imported', {
      onRows: (now) => onShare((before + now) / total),
      ...(watcher.signal !== undefined && { signal: watcher.signal }),
    });
    sent += 2 * rows.length;
  }
};

/** Vessels are no part of what is taken back with an import: they stand in the room all the same. */
const writeVessels = async (
  manager: EntityManager,
  { vessels, stays }: ImportPlan,
  { account, at }: ImportTask,
): Promise<void> => {
  const rows = vessels.map((one) => ({ ...one, personId: account.keepsFor }));
  if (rows.length > 0)
    await copyRecords(manager, 'vessel', 'vessel', rows, account.name, 'imported', {});
  if (stays.length > 0) await writeStays(manager, stays, new Date(at), account.name);
};

/** Checks what rows point to one constraint after another: all at once, at the end, there is no progress and no stop. */
const checkReferences = async (
  manager: EntityManager,
  tables: readonly string[],
  watcher: ImportWatcher,
  onShare: (share: number) => void,
): Promise<void> => {
  const found: { name: string }[] = await manager.query(
    `SELECT conname AS name FROM pg_constraint JOIN pg_class ON pg_class.oid = conrelid
     WHERE contype = 'f' AND condeferred AND relname = ANY($1::text[])
       AND relnamespace = current_schema()::regnamespace`,
    [tables],
  );
  for (const [index, { name }] of found.entries()) {
    expectGoing(watcher);
    await manager.query(`SET CONSTRAINTS "${name}" IMMEDIATE`);
    onShare((index + 1) / found.length);
  }
};

/** Notes which records the import made, so that they can be taken back together. */
const noteImport = async (
  manager: EntityManager,
  parts: readonly Part[],
  { fileName, account, at }: ImportTask,
  { fish, spawns, lines, scores, traits }: ImportCounts,
): Promise<void> => {
  if (parts.every(({ rows }) => rows.length === 0)) return;
  const id = randomUUID();
  const counts = { fish, spawns, lines, scores, traits };
  // Written by hand: the thread's connection knows no entities.
  await manager.query(
    `INSERT INTO past_import (id, person_id, file_name, by_name, at, counts) VALUES ($1, $2, $3, $4, $5, $6)`,
    [id, account.keepsFor, fileName, account.name, new Date(at), JSON.stringify(counts)],
  );
  for (const { kind, rows } of parts) {
    for (let start = 0; start < rows.length; start += NOTED_AT_ONCE) {
      const ids = rows.slice(start, start + NOTED_AT_ONCE).map((row) => row.id);
      await manager.query(
        `INSERT INTO past_import_record (past_import_id, record_id, record_kind)
         SELECT $1, record_id, $2 FROM unnest($3::uuid[]) AS record_id`,
        [id, kind, ids],
      );
    }
  }
};

/** Ends the computation with the rows; a file that was taken in is kept no longer. */
const endComputation = async (
  manager: EntityManager,
  id: string,
  answer: ImportAnswer,
): Promise<void> => {
  const runId = await endWith(manager, id, answer);
  if (runId === null) throw stopped();
  await manager.query(`UPDATE import_run SET body = NULL WHERE id = $1`, [runId]);
};

/** Digest of a file's shape: a header can be long. */
const shapeKey = ({ header }: CsvTable): string =>
  createHash('sha256').update(shapeOf(header)).digest('hex');

/** The table, and what is decided about it: as told, or, where nothing is, as about the last file of its shape. */
const openFile = async (
  manager: EntityManager,
  { text, columns, repairs, account }: ImportTask,
  onShare: (share: number) => void,
) => {
  const table = readTable(text, onShare, repairs?.separator ?? null);
  const remembered =
    columns === null && repairs === null && table.header.length > 0
      ? await rememberedShape(manager, account.keepsFor, shapeKey(table))
      : null;
  return {
    ...{ table, remembered },
    columns: columns ?? choicesFor(table, remembered?.columns ?? []),
    repairs: repairs ?? remembered?.repairs ?? noRepairs,
  };
};

/** Headers may be written otherwise in the next file of a shape. */
const choicesFor = (table: CsvTable, columns: readonly ColumnChoice[]): ColumnChoice[] => {
  const headers = new Map(table.header.map((header) => [plainHeader(header), header]));
  return columns.flatMap((choice) => {
    const header = headers.get(plainHeader(choice.header));
    return header === undefined ? [] : [{ ...choice, header }];
  });
};

/** What was decided serves the next file of the same columns. */
const noteShape = (
  manager: EntityManager,
  table: CsvTable,
  plan: ImportPlan,
  repairs: Repairs,
  { account, fileName, at }: ImportTask,
): Promise<unknown> =>
  rememberShape(manager, account.keepsFor, shapeKey(table), {
    fileName,
    at: new Date(at),
    columns: plan.columns.map(({ header, role, trait, traitName }) => ({
      ...{ header, role, traitName },
      traitId: trait?.id ?? null,
    })),
    repairs: forNextFile(repairs),
  });

/** What taking a file in would do. Writes nothing. */
const look = async (
  manager: EntityManager,
  task: ImportTask,
  watcher: ImportWatcher,
): Promise<ImportPreviewModel> => {
  const { text, account, fileName, latestDay } = task;
  const onShare = (share: number): void => watcher.onProgress?.(share * 0.7);
  const { table, columns, repairs, remembered } = await openFile(manager, task, onShare);
  expectGoing(watcher);
  const plan = planImport(table, columns, await loadStock(manager, account.keepsFor), {
    newId: randomUUID,
    latestDay,
    repairs,
  });
  return toPreview(plan, {
    ...{ fileName, repairs },
    token: createHash('sha256').update(text).digest('hex'),
    sampleRows: table.rows.slice(0, 5).map((row) => [...row.cells]),
    separator: table.delimiter,
    remembered: remembered === null ? null : { fileName: remembered.fileName, at: remembered.at },
  });
};

/** Takes the whole file in, in one transaction, or nothing of it. */
const take = (
  dataSource: DataSource,
  task: ImportTask,
  watcher: ImportWatcher,
): Promise<ImportAnswer> => {
  const from = (start: number, part: number) => (share: number) =>
    watcher.onProgress?.(start + part * share);
  const { read, check, write: writing, references } = SHARES;
  const repairs = task.repairs ?? noRepairs;
  const table = readTable(task.text, from(0, read), repairs.separator);
  return dataSource.transaction(async (manager) => {
    expectGoing(watcher);
    await lockStock(manager, task.computationId !== null);
    const stock = await loadStock(manager, task.account.keepsFor);
    const plan = planImport(table, task.columns ?? [], stock, {
      ...{ newId: randomUUID, latestDay: task.latestDay, repairs },
    });
    if (plan.problems.length > 0) throw refusal(plan);
    const parts = partsOf(plan, task);
    from(read, check)(1);
    await write(manager, parts, task.account.name, watcher, from(read + check, writing));
    await writeVessels(manager, plan, task);
    const counts = {
      fish: plan.fish.length,
      spawns: plan.spawns.length,
      lines: plan.lines.length,
      scores: plan.scores.length,
      traits: plan.traits.length,
      unchanged: plan.knownFish,
      skippedRows: plan.skippedRows,
    };
    await noteImport(manager, parts, task, counts);
    await noteShape(manager, table, plan, repairs, task);
    const tables = parts.filter(({ rows }) => rows.length > 0).map((part) => part.table);
    const onShare = from(read + check + writing, references);
    await checkReferences(manager, tables, watcher, onShare);
    const answer = { counts, notes: plan.notes.slice(0, PROBLEMS_SHOWN) };
    expectGoing(watcher);
    if (watcher.mayKeep !== undefined && !(await watcher.mayKeep())) throw stopped();
    if (task.computationId !== null) await endComputation(manager, task.computationId, answer);
    return answer;
  });
};

/** Does a task, here or in a thread; what is told to a person is a {@link RequestError}. */
export const doImport = async (
  dataSource: DataSource,
  task: ImportTask,
  watcher: ImportWatcher,
): Promise<ImportAnswer> => {
  try {
    return task.purpose === 'look'
      ? { preview: await look(dataSource.manager, task, watcher) }
      : await take(dataSource, task, watcher);
  } catch (error) {
    // A stop breaks off the sending of rows with an error of its own.
    if (watcher.signal?.aborted === true) throw stopped();
    throw error;
  }
};
