import {
  findBroodConflicts,
  NO_PARENT,
  pedigreeFromColumns,
  PedigreeError,
  pedigreeOfBroods,
  type Pedigree,
  type PedigreeOptions,
} from '@linewright/pedigree';
import { CsvReader, type CsvFault } from './csv-reader.js';
import { doubled, TagTable } from './tag-table.js';

/** A pedigree and its tags in the order of the file. */
export interface PedigreeFile {
  readonly pedigree: Pedigree;
  readonly tags: TagTable;
  /** Tag number and index in the pedigree of each fish, in the order in which its rows begin. */
  readonly tagOfRow: Int32Array;
  readonly indexOfRow: Int32Array;
  /** Looks at the fish: one for each row of the file. */
  readonly looks: Looks;
  /** What was taken for granted in reading it, for the reader to know. */
  readonly notes: readonly string[];
}

/** Rows of a file of which a fish may have several, with the fields of the columns asked for. */
export interface Looks {
  /** Position of each row's fish in `tagOfRow`. */
  readonly fish: Int32Array;
  /** Line on which each row begins. */
  readonly line: Int32Array;
  readonly columns: ReadonlyMap<string, readonly string[]>;
}

export interface ReadOptions extends PedigreeOptions {
  /** Columns whose fields are kept beside those of the pedigree, by name without regard to case. */
  readonly columns?: readonly string[];
  /** Whether a fish may have several rows, all with the same parents. */
  readonly repeatedRows?: boolean;
}

/** Everything wrong with an input, one message a line. */
export class InputError extends Error {
  constructor(readonly messages: readonly string[]) {
    super(messages[0] ?? 'The input cannot be read.');
  }
}

/**
 * Reads columns tag, sire and dam, and spawn where there is one, found by their headers in any order and case; other columns are
 * passed over. Rows with the same spawn are full sibs, also when their parents are not given.
 *
 * @throws {InputError} with every fault and its line.
 */
export async function readPedigree(
  chunks: AsyncIterable<Buffer>,
  options: ReadOptions,
): Promise<PedigreeFile> {
  const rows = new Rows(options);
  const reader = new CsvReader(
    (record) => rows.take(record),
    (fault) => rows.faults.push(fault),
  );
  for await (const chunk of chunks) reader.push(chunk);
  reader.finish();
  return rows.build(options);
}

class Rows {
  readonly faults: CsvFault[] = [];
  readonly #tags = new TagTable();
  #places: ColumnPlaces | undefined;
  #count = 0;
  #tag = new Int32Array(1 << 12);
  #sire = new Int32Array(1 << 12);
  #dam = new Int32Array(1 << 12);
  #line = new Int32Array(1 << 12);
  readonly #spawns = new TagTable();
  #spawn = new Int32Array(1 << 12);
  /** By spelling, how many parents were given by a word that stands for an unknown one. */
  readonly #unknownWords = new Map<string, number>();
  /** Tags that turned out to be words for an unknown parent. */
  readonly #noFish = new Set<number>();
  #lastSire = NO_PARENT;
  #lastDam = NO_PARENT;
  readonly #kept: readonly string[];
  readonly #fields: string[][];
  /** Fish of each row, once repeated rows are joined. */
  #fish: Int32Array | undefined;

  constructor(readonly read: ReadOptions) {
    this.#kept = [...new Set((read.columns ?? []).map((name) => name.trim().toLowerCase()))];
    this.#fields = this.#kept.map(() => []);
  }

  take(record: CsvReader): void {
    if (this.#places === undefined) {
      this.#places = findColumns(record, this.#kept);
      return;
    }
    const { tag, sire, dam, spawn, count } = this.#places;
    if (record.fieldCount !== count) {
      const message = `there are ${record.fieldCount} fields where the header has ${count}. Correct the commas or quote the field.`;
      this.faults.push({ line: record.line, message });
      return;
    }
    if (this.#count === this.#tag.length) {
      this.#tag = doubled(this.#tag);
      this.#sire = doubled(this.#sire);
      this.#dam = doubled(this.#dam);
      this.#spawn = doubled(this.#spawn);
      this.#line = doubled(this.#line);
    }
    const row = this.#count++;
    this.#tag[row] = this.#numberOf(record, tag, NO_PARENT);
    this.#sire[row] = this.#lastSire = this.#numberOf(record, sire, this.#lastSire);
    this.#dam[row] = this.#lastDam = this.#numberOf(record, dam, this.#lastDam);
    this.#spawn[row] =
      spawn < 0 ? NO_PARENT : this.#numberOf(record, spawn, NO_PARENT, this.#spawns);
    this.#line[row] = record.line;
    this.#places.kept.forEach((place, k) => this.#fields[k]!.push(record.field(place)));
  }

  /** Number of the tag in a field, -1 when the field is empty; `likely` saves a look-up within a spawn. */
  #numberOf(record: CsvReader, field: number, likely: number, tags = this.#tags): number {
    if (record.isPlain(field)) {
      const start = record.start(field);
      const end = record.end(field);
      if (start >= end) return NO_PARENT;
      if (likely >= 0 && tags.matches(likely, record.bytes, start, end)) return likely;
      return tags.number(record.bytes, start, end);
    }
    const bytes = utf8.encode(record.field(field));
    return bytes.length === 0 ? NO_PARENT : tags.number(bytes, 0, bytes.length);
  }

  build(options: PedigreeOptions): PedigreeFile {
    if (this.#places === undefined) {
      throw new InputError([
        'The file is empty. Its first line must name the columns tag, sire and dam.',
      ]);
    }
    this.#takeUnknownWords();
    const line = this.#line.slice(0, this.#count);
    if (this.read.repeatedRows === true) this.#joinRepeatedRows();
    const resolved = this.faults.length === 0 ? this.#resolve(options) : undefined;
    if (resolved === undefined) this.#explain(options);
    const { sire, dam, tagOfRow } = resolved;
    const ids = () => Array.from(tagOfRow, (tag) => this.#tags.text(tag));
    const brood = new Int32Array(sire.length).fill(NO_PARENT);
    brood.set(this.#spawn.subarray(0, this.#count));
    this.#expectOneBrood(sire, dam, brood, ids);
    const hiddenId = (of: number, role: string) => `unknown ${role} of ${this.#spawns.text(of)}`;
    try {
      const { pedigree, indexOfRow } = pedigreeOfBroods(
        { sire, dam, brood, ids, hiddenId, rows: this.#line },
        options,
      );
      const fish = this.#fish ?? Int32Array.from(line.keys());
      const columns = new Map(this.#kept.map((name, k) => [name, this.#fields[k]!]));
      const looks = { fish, line, columns };
      return { pedigree, indexOfRow, tags: this.#tags, tagOfRow, looks, notes: this.#notes() };
    } catch (error) {
      if (error instanceof PedigreeError) this.#explain(options);
      throw error;
    }
  }

  /** A parent given as "0" or "unknown" is not known, unless a row bears that very tag. */
  #takeUnknownWords(): void {
    const rows = new Set(this.#tag.subarray(0, this.#count));
    const words = new Map<number, string>();
    for (let tag = 0; tag < this.#tags.count; tag++) {
      if (rows.has(tag)) continue;
      const text = this.#tags.text(tag);
      if (UNKNOWN_PARENT.has(text.toLowerCase())) words.set(tag, text);
    }
    if (words.size === 0) return;
    for (const parents of [this.#sire, this.#dam]) {
      for (let row = 0; row < this.#count; row++) {
        const word = words.get(parents[row]!);
        if (word === undefined) continue;
        parents[row] = NO_PARENT;
        this.#unknownWords.set(word, (this.#unknownWords.get(word) ?? 0) + 1);
      }
    }
    for (const tag of words.keys()) this.#noFish.add(tag);
  }

  /** Leaves one row a fish: the first, with parents that only a later one gives. */
  #joinRepeatedRows(): void {
    const rowOf = new Map<number, number>();
    const firstLine: number[] = [];
    this.#fish = new Int32Array(this.#count);
    const columns = [
      ['sire', this.#sire, this.#tags],
      ['dam', this.#dam, this.#tags],
      ['spawn', this.#spawn, this.#spawns],
    ] as const;
    let count = 0;
    for (let row = 0; row < this.#count; row++) {
      const tag = this.#tag[row]!;
      let first = tag < 0 ? undefined : rowOf.get(tag);
      if (first === undefined) {
        first = count++;
        if (tag >= 0) rowOf.set(tag, first);
        firstLine.push(this.#line[row]!);
        this.#tag[first] = tag;
        for (const [, values] of columns) values[first] = values[row]!;
      } else {
        for (const [name, values, table] of columns) {
          if (values[row]! < 0 || values[row] === values[first]) continue;
          if (values[first]! < 0) values[first] = values[row]!;
          else {
            const message = `"${this.#tags.text(tag)}" has the ${name} "${table.text(values[row]!)}" here and "${table.text(values[first]!)}" on line ${firstLine[first]}. Give all rows of a fish the same.`;
            this.faults.push({ line: this.#line[row]!, message });
          }
        }
      }
      this.#fish[row] = first;
    }
    this.#line.set(firstLine);
    this.#count = count;
  }

  #notes(): string[] {
    return Array.from(
      this.#unknownWords,
      ([word, times]) =>
        `"${word}" as a parent was taken as not known (${times} ${times === 1 ? 'time' : 'times'}), not as one fish. Give a fish of that name a row of its own if there is one.`,
    );
  }

  #expectOneBrood(
    sire: Int32Array,
    dam: Int32Array,
    brood: Int32Array,
    ids: () => readonly string[],
  ): void {
    const conflicts = findBroodConflicts({ sire, dam, brood });
    if (conflicts.length === 0) return;
    const names = ids();
    throw new InputError(
      conflicts.map(({ brood: of, role, rows: [one, other] }) => {
        const parents = role === 'sire' ? sire : dam;
        return `Line ${this.#line[other]!}: "${names[other]!}" has the ${role} "${names[parents[other]!]!}", and "${names[one]!}" (line ${this.#line[one]!}) of the same spawn "${this.#spawns.text(of)}" has "${names[parents[one]!]!}", while another of that spawn has none. Give each brood a spawn of its own.`;
      }),
    );
  }

  /** Parents as rows; undefined when a tag is missing, given twice, or names no row. */
  #resolve(options: PedigreeOptions) {
    const rowOfTag = new Int32Array(this.#tags.count).fill(-1);
    for (let row = 0; row < this.#count; row++) {
      const tag = this.#tag[row]!;
      if (tag < 0 || rowOfTag[tag]! >= 0) return undefined;
      rowOfTag[tag] = row;
    }
    let size = this.#count;
    if (size < this.#tags.count - this.#noFish.size && options.unlistedParents !== 'add')
      return undefined;
    const tagOfRow = new Int32Array(this.#tags.count - this.#noFish.size);
    tagOfRow.set(this.#tag.subarray(0, size));
    for (let tag = 0; tag < rowOfTag.length; tag++) {
      if (rowOfTag[tag]! >= 0 || this.#noFish.has(tag)) continue;
      rowOfTag[tag] = size;
      tagOfRow[size++] = tag;
    }
    const toRows = (parents: Int32Array): Int32Array => {
      const found = new Int32Array(size).fill(NO_PARENT);
      for (let row = 0; row < this.#count; row++) {
        const tag = parents[row]!;
        if (tag >= 0) found[row] = rowOfTag[tag]!;
      }
      return found;
    };
    return { sire: toRows(this.#sire), dam: toRows(this.#dam), tagOfRow };
  }

  /** Says everything that is wrong, by way of the library's own check on plain text. */
  #explain(options: PedigreeOptions): never {
    const text = (tags: Int32Array) =>
      Array.from(tags.subarray(0, this.#count), (tag) => (tag < 0 ? '' : this.#tags.text(tag)));
    const messages = this.faults.map(({ line, message }) => ({
      line,
      text: `Line ${line}: ${message}`,
    }));
    try {
      pedigreeFromColumns(
        {
          ids: text(this.#tag),
          sire: text(this.#sire),
          dam: text(this.#dam),
          rows: this.#line.subarray(0, this.#count),
        },
        options,
      );
    } catch (error) {
      if (!(error instanceof PedigreeError)) throw error;
      if (error.problems.length === 0) throw new InputError([error.message]);
      for (const { row, message } of error.problems)
        messages.push({ line: row ?? 0, text: message });
    }
    messages.sort((a, b) => a.line - b.line);
    throw new InputError(messages.map((message) => message.text));
  }
}

/** What files write for a parent that is not known. */
const UNKNOWN_PARENT: ReadonlySet<string> = new Set(['0', 'unknown', '?', '-', 'na', 'n/a']);

/** Headers of the column that tells spawns apart. */
const SPAWN_HEADERS: readonly string[] = ['spawn', 'sibs'];

const utf8 = new TextEncoder();

interface ColumnPlaces {
  readonly tag: number;
  readonly sire: number;
  readonly dam: number;
  /** -1 where there is none. */
  readonly spawn: number;
  readonly count: number;
  /** Of further columns that were asked for. */
  readonly kept: readonly number[];
}

function findColumns(header: CsvReader, kept: readonly string[]): ColumnPlaces {
  const names = Array.from({ length: header.fieldCount }, (_, k) =>
    header.field(k).trim().toLowerCase(),
  );
  const wanted = [...new Set(['tag', 'sire', 'dam', ...kept])];
  const missing = wanted.filter((name) => !names.includes(name));
  if (missing.length > 0) {
    throw new InputError([
      `Line 1: no column is called ${missing.join(' or ')}. The first line must name the columns ${listed(wanted)}, parted by commas; found: ${names.join(', ')}.`,
    ]);
  }
  const twice = wanted.filter((name) => names.indexOf(name) !== names.lastIndexOf(name));
  if (twice.length > 0) {
    throw new InputError([
      `Line 1: more than one column is called ${twice.join(' and ')}. Keep one of them.`,
    ]);
  }
  return {
    tag: names.indexOf('tag'),
    sire: names.indexOf('sire'),
    dam: names.indexOf('dam'),
    spawn: names.findIndex((name) => SPAWN_HEADERS.includes(name)),
    count: names.length,
    kept: kept.map((name) => names.indexOf(name)),
  };
}

const listed = (names: readonly string[]): string =>
  `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
