import type { FishSex } from '../stock/rows/fish.entity.js';
import { FishCheck } from './check-fish.js';
import type { CsvTable } from './csv-table.js';
import { type MatchedColumn, matchColumns, plainHeader } from './import-columns.js';
import { type ColumnChoice } from '../stock/rows/import-column-choice.js';
import type { ImportNote, ImportProblem } from './import-problem.js';
import { readFish } from './read-fish.js';
import { type ReadFish } from './fish-row.js';
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
  /** Fish of the file that are recorded already, as the file has them. */
  readonly knownFish: number;
}

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

const planFish = (
  rows: readonly ReadFish[],
  stock: RecordedStock,
  lineIds: ReadonlyMap<string, string>,
  newId: () => string,
) => {
  const added = rows.filter((row) => !stock.fish.has(row.tag));
  const fishIds = new Map(added.map((row) => [row.tag, newId()]));
  const idOf = (tag: string | null): string | null =>
    tag === null ? null : (fishIds.get(tag) ?? stock.fish.get(tag)?.id ?? null);
  const spawnIds = new Map(stock.spawns);
  const spawns: PlannedSpawn[] = [];
  const firstDate = new Map<string, string>();
  for (const { spawn, hatchDate } of rows) {
    if (spawn !== null && hatchDate !== null && !firstDate.has(spawn))
      firstDate.set(spawn, hatchDate);
  }
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
    return {
      id: fishIds.get(row.tag)!,
      tag: row.tag,
      sex: row.sex ?? 'unsexed',
      hatchDate: row.hatchDate,
      lineId,
      spawnId: spawnOf(row, lineId),
      declaredUnrelated: row.unrelated,
    };
  });
  return { fish, spawns, idOf };
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

/**
 * Reads and checks a table and works out all that its import would write.
 *
 * Pure: ids come from `newId`, and the last day on which a fish can have hatched is given. Cost: linear in rows, plus sorting
 * the problems.
 */
export const planImport = (
  table: CsvTable,
  choices: readonly ColumnChoice[],
  stock: RecordedStock,
  { newId, latestDay }: { readonly newId: () => string; readonly latestDay: string },
): ImportPlan => {
  const matched = matchColumns(table, choices, stock.traits);
  const read = readFish(table, matched.columns, stock, latestDay);
  const check = new FishCheck(read.fish, matched.columns, stock.fish);
  const problems = [...table.problems, ...matched.problems, ...read.problems, ...check.problems];
  problems.sort((a, b) => a.line - b.line);
  const rows = check.standing;
  const { lines, idOf: lineIds } = planLines(rows, stock, newId);
  const { fish, spawns, idOf } = planFish(rows, stock, lineIds, newId);
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
  return {
    columns: matched.columns,
    problems,
    notes: read.notes,
    rowCount: table.rows.length,
    skippedRows: read.skippedRows,
    fish,
    lines,
    spawns,
    traits,
    scores,
    knownFish: rows.length - fish.length,
  };
};
