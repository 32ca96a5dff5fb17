import {
  type AnswerDone,
  findDayOrder,
  nearest,
  noRepairs,
  type OrderFound,
  plainHeader,
  type Repairs,
  withAnswers,
  withRepairs,
} from '@linewright/repair';
import type { FishDisposition, FishSex } from '../stock/rows/fish.entity.js';
import { usualPlace } from '../stock/fish-place.js';
import { FishCheck } from './check-fish.js';
import { type CsvTable, rowProblems } from './csv-table.js';
import { type MatchedColumn, matchColumns } from './import-columns.js';
import { type ColumnChoice } from '../stock/rows/import-column-choice.js';
import type { ImportNote, ImportProblem } from './import-problem.js';
import { readFish } from './read-fish.js';
import { type ReadFish } from './fish-row.js';
import { type PlannedStay, type PlannedVessel, planVessels } from './plan-vessels.js';
import { broodKey, type RecordedStock } from './recorded-stock.js';

export interface PlannedFish {
  readonly id: string;
  readonly tag: string;
  readonly sex: FishSex;
  readonly hatchDate: string | null;
  readonly lineId: string | null;
  readonly spawnId: string | null;
  /** `null`: the file does not say. */
  readonly declaredUnrelated: boolean | null;
  readonly name: string | null;
  readonly note: string | null;
  readonly origin: string | null;
  readonly disposition: FishDisposition;
  readonly swimsWithId: string | null;
}

export interface PlannedSpawn {
  readonly id: string;
  readonly tag: string;
  readonly lineId: string | null;
  readonly sireId: string | null;
  readonly damId: string | null;
  readonly hatchDate: string | null;
}

export interface PlannedTrait {
  readonly id: string;
  readonly key: string;
  readonly name: string;
  readonly kind: 'measured' | 'yes_no';
}

export interface PlannedScore {
  readonly id: string;
  readonly fishId: string;
  readonly traitId: string;
  readonly traitVersion: number;
  readonly value: number;
}

/** All that an import would write; nothing of it is written while there are problems. */
export interface ImportPlan {
  readonly columns: readonly MatchedColumn[];
  /** By line. */
  readonly problems: readonly ImportProblem[];
  /** What is read otherwise than it stands, by line. */
  readonly notes: readonly ImportNote[];
  readonly rowCount: number;
  /** Rows that are no fish and are not taken in. */
  readonly skippedRows: number;
  readonly fish: readonly PlannedFish[];
  readonly lines: readonly { readonly id: string; readonly code: string }[];
  readonly spawns: readonly PlannedSpawn[];
  readonly traits: readonly PlannedTrait[];
  readonly scores: readonly PlannedScore[];
  readonly vessels: readonly PlannedVessel[];
  readonly stays: readonly PlannedStay[];
  /** Fish of the file that are recorded already, as the file has them. */
  readonly knownFish: number;
  /** New fish of which the file does not say whether they are in use. */
  readonly unmarked: number;
  /** How the hatch dates are written; `null` without such a column. */
  readonly days: OrderFound | null;
  /** Answers for whole causes that changed something. */
  readonly answered: readonly AnswerDone[];
  readonly table: CsvTable;
}

/** Lines that would be made and are spelt nearly like another: one line, perhaps, written in two ways. */
const nearLines = (
  fish: readonly ReadFish[],
  recorded: Iterable<string>,
  header: string | null,
): ImportNote[] => {
  const rows = new Map<string, number>();
  for (const { lineCode } of fish)
    if (lineCode !== null) rows.set(lineCode, (rows.get(lineCode) ?? 0) + 1);
  const known = new Set(recorded);
  const near = nearest(new Set([...known, ...rows.keys()]));
  const offers = new Map<string, string>();
  for (const [code, count] of rows) {
    if (known.has(code)) continue;
    const other = near(code).find((one) => known.has(one) || (rows.get(one) ?? 0) > count);
    if (other !== undefined) offers.set(code, other);
  }
  return fish.flatMap(({ line, lineCode }): ImportNote[] => {
    const other = lineCode === null ? undefined : offers.get(lineCode);
    if (lineCode === null || other === undefined) return [];
    return [
      {
        line,
        column: header,
        code: 'IMPORT_NEAR_LINE',
        value: lineCode,
        message: `The line "${lineCode}" would be made beside "${other}".`,
        remedy: 'If they are one line, read it as the other.',
        offers: [other],
      },
    ];
  });
};

const planLines = (fish: readonly ReadFish[], stock: RecordedStock, newId: () => string) => {
  const idOf = new Map(stock.lines);
  const lines: { id: string; code: string }[] = [];
  for (const { lineCode } of fish) {
    if (lineCode === null || idOf.has(lineCode)) continue;
    const line = { id: newId(), code: lineCode };
    idOf.set(lineCode, line.id);
    lines.push(line);
  }
  return { lines, idOf };
};

/** Tags of broods that the file implies: the line's code, S, and a number not taken yet. */
const spawnTagger = (taken: ReadonlySet<string>): ((lineCode: string | null) => string) => {
  const next = new Map<string, number>();
  return (lineCode) => {
    const stem = lineCode ?? 'SPAWN';
    for (let number = next.get(stem) ?? 1; ; number++) {
      const tag = `${stem}-S${String(number).padStart(4, '0')}`;
      if (taken.has(tag)) continue;
      next.set(stem, number + 1);
      return tag;
    }
  };
};

/** Of each spawn that rows name, the first hatch date among them. */
const firstDates = (rows: readonly ReadFish[]): ReadonlyMap<string, string> => {
  const first = new Map<string, string>();
  for (const { spawn, hatchDate } of rows)
    if (spawn !== null && hatchDate !== null && !first.has(spawn)) first.set(spawn, hatchDate);
  return first;
};

const planFish = (
  rows: readonly ReadFish[],
  stock: RecordedStock,
  lineIds: ReadonlyMap<string, string>,
  newId: () => string,
  unmarked: FishDisposition,
) => {
  const added = rows.filter((row) => !stock.fish.has(row.tag));
  const fishIds = new Map(added.map((row) => [row.tag, newId()]));
  const idOf = (tag: string | null): string | null =>
    tag === null ? null : (fishIds.get(tag) ?? stock.fish.get(tag)?.id ?? null);
  const spawnIds = new Map(stock.spawns);
  const spawns: PlannedSpawn[] = [];
  const firstDate = firstDates(rows);
  const named = rows.flatMap(({ spawn }) => spawn ?? []);
  const tagFor = spawnTagger(new Set([...stock.spawnsByTag.keys(), ...named]));
  const spawnOf = (row: ReadFish, lineId: string | null): string | null => {
    const [sireId, damId] = [idOf(row.sire), idOf(row.dam)];
    if (row.spawn === null && sireId === null && damId === null) return null;
    const key =
      row.spawn === null ? broodKey(sireId, damId, row.hatchDate, lineId) : `spawn ${row.spawn}`;
    const recorded = row.spawn === null ? undefined : stock.spawnsByTag.get(row.spawn)?.id;
    const existing = recorded ?? spawnIds.get(key);
    if (existing !== undefined) return existing;
    const spawn = {
      id: newId(),
      tag: row.spawn ?? tagFor(row.lineCode),
      lineId,
      sireId,
      damId,
      hatchDate: row.spawn === null ? row.hatchDate : (firstDate.get(row.spawn) ?? null),
    };
    spawnIds.set(key, spawn.id);
    spawns.push(spawn);
    return spawn.id;
  };
  const fish = added.map((row): PlannedFish => {
    const lineId = row.lineCode === null ? null : (lineIds.get(row.lineCode) ?? null);
    const disposition = row.disposition ?? unmarked;
    return {
      id: fishIds.get(row.tag)!,
      tag: row.tag,
      sex: row.sex ?? 'unsexed',
      hatchDate: row.hatchDate,
      lineId,
      spawnId: spawnOf(row, lineId),
      declaredUnrelated: row.unrelated,
      ...{ name: row.name, note: row.note, origin: row.origin, disposition },
      swimsWithId:
        row.swimsWithId === undefined ? usualPlace(stock.personId, disposition) : row.swimsWithId,
    };
  });
  return {
    ...{ fish, spawns, idOf },
    unmarked: added.filter((row) => row.disposition === null).length,
  };
};

const traitKey = (name: string, taken: Set<string>): string => {
  const stem = plainHeader(name).replaceAll(' ', '_') || 'trait';
  let key = stem;
  for (let number = 2; taken.has(key); number++) key = `${stem}_${number}`;
  taken.add(key);
  return key;
};

const planTraits = (
  rows: readonly ReadFish[],
  columns: readonly MatchedColumn[],
  stock: RecordedStock,
  newId: () => string,
) => {
  const beyondYesNo = new Set<MatchedColumn>();
  const filled = new Set<MatchedColumn>();
  for (const { scores } of rows) {
    for (const { column, value } of scores) {
      filled.add(column);
      if (value !== 0 && value !== 1) beyondYesNo.add(column);
    }
  }
  const keys = new Set(stock.traits.map((t) => t.key));
  const traits: PlannedTrait[] = [];
  const of = new Map<MatchedColumn, { id: string; version: number }>();
  for (const column of columns) {
    if (column.role !== 'trait' || !filled.has(column)) continue;
    if (column.trait !== null) {
      of.set(column, column.trait);
      continue;
    }
    const name = column.traitName ?? column.header;
    const kind = beyondYesNo.has(column) ? 'measured' : 'yes_no';
    const trait = { id: newId(), key: traitKey(name, keys), name, kind } as const;
    traits.push(trait);
    of.set(column, { id: trait.id, version: 1 });
  }
  return { traits, of };
};

export interface PlanContext {
  readonly newId: () => string;
  /** The last day on which a fish can have hatched, `YYYY-MM-DD`. */
  readonly latestDay: string;
  readonly repairs?: Repairs;
}

const cellsOf = (table: CsvTable, columns: readonly MatchedColumn[], role: string) => {
  const column = columns.find((one) => one.role === role);
  return column === undefined ? null : table.rows.map(({ cells }) => cells[column.index] ?? '');
};

const planOnce = (
  table: CsvTable,
  choices: readonly ColumnChoice[],
  stock: RecordedStock,
  { newId, latestDay, repairs = noRepairs }: PlanContext,
): Omit<ImportPlan, 'answered'> => {
  const latestYear = Number(latestDay.slice(0, 4));
  const matched = matchColumns(table, choices, stock.traits, latestYear);
  const hatched = cellsOf(table, matched.columns, 'hatch_date');
  const days = hatched === null ? null : findDayOrder(hatched, latestYear);
  const read = readFish(table, matched.columns, stock, {
    dayOrder: repairs.dayOrder ?? days?.proven ?? null,
    latestDay,
    latestYear,
    fishLines: new Set(repairs.fish),
    keepersIntoNote: repairs.answers.some(
      ({ code, answer }) => code === 'IMPORT_UNKNOWN_KEEPER' && answer === 'note',
    ),
  });
  const check = new FishCheck(read.fish, matched.columns, stock.fish);
  const problems = [
    ...[...table.problems, ...rowProblems(table), ...matched.problems],
    ...[...read.problems, ...check.problems],
  ].sort((a, b) => a.line - b.line);
  const rows = check.standing;
  const { lines, idOf: lineIds } = planLines(rows, stock, newId);
  const planned = planFish(rows, stock, lineIds, newId, repairs.unmarked ?? 'unsorted');
  const { fish, spawns, idOf, unmarked } = planned;
  const { traits, of } = planTraits(rows, matched.columns, stock, newId);
  const scores = rows.flatMap((row) =>
    row.scores.flatMap(({ column, value }): PlannedScore[] => {
      const trait = of.get(column);
      const fishId = idOf(row.tag);
      if (trait === undefined || fishId === null) return [];
      if (stock.standing.get(`${fishId} ${trait.id}`) === value) return [];
      return [{ id: newId(), fishId, traitId: trait.id, traitVersion: trait.version, value }];
    }),
  );
  const lineHeader = matched.columns.find(({ role }) => role === 'line')?.header ?? null;
  const near = nearLines(rows, stock.lines.keys(), lineHeader);
  const vesselHeader = matched.columns.find(({ role }) => role === 'vessel')?.header ?? null;
  const { notes: shared, ...kept } = planVessels(rows, fish, stock, newId, vesselHeader);
  return {
    columns: matched.columns,
    problems,
    ...kept,
    notes: [...read.notes, ...near, ...shared].sort((a, b) => a.line - b.line),
    rowCount: table.rows.length,
    skippedRows: read.skippedRows,
    ...{ fish, lines, spawns, traits, scores, unmarked, days, table },
    knownFish: rows.length - fish.length,
  };
};

/** Answers bring up other faults, an emptied cell or an added parent, and those have answers too; more rounds change nothing. */
export const MOST_ROUNDS = 5;

/**
 * Reads and checks a table and works out all that its import would write, after what was decided about it was done to it.
 *
 * Pure: ids come from `newId`, and the last day on which a fish can have hatched is given. Cost: linear in rows, plus sorting
 * the problems, for each round of answers.
 */
export const planImport = (
  file: CsvTable,
  choices: readonly ColumnChoice[],
  stock: RecordedStock,
  context: PlanContext,
): ImportPlan => {
  const { answers } = context.repairs ?? noRepairs;
  const done = new Map<string, AnswerDone>();
  let table = withRepairs(file, context.repairs ?? noRepairs);
  for (let round = 0; ; round++) {
    const plan = planOnce(table, choices, stock, context);
    const index = (role: string) => plan.columns.find((one) => one.role === role);
    const next = withAnswers(table, [...plan.problems, ...plan.notes], answers, {
      tag: index('tag')?.index,
      sex: index('sex')?.index,
      sire: index('sire')?.header,
      dam: index('dam')?.header,
    });
    if (next.done.length === 0 || round === MOST_ROUNDS)
      return { ...plan, answered: [...done.values()] };
    for (const one of next.done) {
      const key = `${one.code} ${one.column} ${one.answer}`;
      done.set(key, { ...one, count: one.count + (done.get(key)?.count ?? 0) });
    }
    table = next.table;
  }
};
