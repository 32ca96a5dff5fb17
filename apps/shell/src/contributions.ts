import { parseArgs } from 'node:util';
import { coancestryBlock } from '@linewright/kinship';
import {
  bestContributions,
  leastCoancestry,
  type ContributionProblem,
  type Contributions,
} from '@linewright/mating';
import { decimalIn } from '@linewright/pedigree';
import { everyCommand, named, open, type Shell, tellNotes, understood } from './command.js';
import { CsvWriter } from './csv-writer.js';
import { InputError, readPedigree, type Looks, type PedigreeFile } from './read-pedigree.js';
import { fieldsOf, numbersOf } from './score-columns.js';

const USAGE = `Usage: npm run -s contributions -- FILE.csv --value COLUMN --candidate COLUMN --kinship LIMIT
         npm run -s contributions -- FILE.csv --candidate COLUMN --least
         [--add-unlisted] [--allow-selfing]

FILE.csv has columns tag, sire, dam and sex, and columns of the fish's worth and of who is a candidate, in any order; rows in any
order; - reads standard input. Prints what each candidate should give to the next generation, as a share: males and females each give
one half. The shares are those of greatest mean worth whose mean coancestry c'Kc is at most LIMIT (K holds coancestries, of a fish with
itself (1 + F) / 2). The mean worth and coancestry are told on standard error.

  --value          column of numbers, such as breeding values; needed for each candidate
  --candidate      column with 1 for a candidate and 0, or nothing, for any other fish
  --kinship        the greatest mean coancestry that is allowed, such as 0.2
  --least          the shares of least mean coancestry instead
  --add-unlisted   take a parent without a row of its own for a founder
  --allow-selfing  accept one individual as both parents`;

const readArguments = ({ typed }: Shell) =>
  parseArgs({
    args: [...typed],
    allowPositionals: true,
    options: {
      value: { type: 'string' },
      candidate: { type: 'string' },
      kinship: { type: 'string' },
      least: { type: 'boolean', default: false },
      ...everyCommand,
    },
  });

export async function contributions(shell: Shell): Promise<void> {
  const typed = understood(shell, () => readArguments(shell), USAGE);
  if (typed === null) return;
  const { file, values, reading } = typed;
  const { candidate, value, least } = values;
  if (candidate === undefined) throw new InputError([USAGE]);
  if (least === (values.kinship !== undefined) || (value === undefined && !least))
    throw new InputError(['Give either --value and --kinship, or --least.', USAGE]);
  const limit = least ? NaN : limitOf(values.kinship!);
  const read = await named(file, () =>
    readPedigree(open(shell, file), {
      ...reading,
      columns: ['sex', candidate, ...(value === undefined ? [] : [value])],
    }),
  );
  tellNotes(shell, file, read.notes);
  const rows = candidatesOf(read.looks, candidate);
  const found = await named(file, async () => {
    const problem = problemOf(read, rows, value);
    return least ? leastCoancestry(problem) : bestContributions(problem, limit);
  });
  tellNotes(shell, file, [told(found, value)]);
  await write(shell, read, rows, found);
}

/** Who gives and what comes of it, for standard error. */
function told(
  { share, value, coancestry }: Contributions,
  valueColumn: string | undefined,
): string {
  const givers = share.filter((each) => each > 0).length;
  const worth = valueColumn === undefined ? '' : `mean ${valueColumn} ${value.toFixed(12)}, `;
  return `${givers} of ${share.length} candidates give something: ${worth}mean coancestry ${coancestry.toFixed(12)}.`;
}

function limitOf(text: string): number {
  const limit = decimalIn(text) ?? NaN;
  if (limit >= 0 && limit <= 1) return limit;
  throw new InputError([`--kinship "${text}" must be a mean coancestry from 0 to 1, such as 0.2.`]);
}

/** Rows of the candidates. */
function candidatesOf(looks: Looks, column: string): number[] {
  const faults: string[] = [];
  const rows = fieldsOf(looks, column).flatMap((given, row) => {
    const field = given.trim();
    if (field === '1') return [row];
    if (field !== '' && field !== '0')
      faults.push(
        `Line ${looks.line[row]!}: "${field}" in "${column}" must be 1 for a candidate, or 0.`,
      );
    return [];
  });
  if (faults.length > 0) throw new InputError(faults);
  return rows;
}

const SEXES = new Map([
  ['m', 0],
  ['male', 0],
  ['f', 1],
  ['female', 1],
]);

function problemOf(
  { pedigree, tags, tagOfRow, indexOfRow, looks }: PedigreeFile,
  rows: readonly number[],
  valueColumn: string | undefined,
): ContributionProblem {
  const faults: string[] = [];
  const sexes = fieldsOf(looks, 'sex').map((field) => field.trim());
  const worth = valueColumn === undefined ? undefined : numbersOf(looks, valueColumn);
  const group = Int32Array.from(rows, (row) => {
    const sex = SEXES.get(sexes[row]!.toLowerCase());
    if (sex === undefined)
      faults.push(
        `Line ${looks.line[row]!}: a candidate needs the sex male or female (m, f), not "${sexes[row]!}".`,
      );
    if (worth !== undefined && Number.isNaN(worth[row]!))
      faults.push(
        `Line ${looks.line[row]!}: a candidate needs a number in "${valueColumn!}". Fill it in, or do not make it a candidate.`,
      );
    return sex ?? 0;
  });
  if (faults.length > 0) throw new InputError(faults);
  for (const [sex, of] of [
    ['male', 0],
    ['female', 1],
  ] as const)
    if (!group.includes(of))
      throw new InputError([
        `There is no ${sex} candidate: half of the next generation comes from each sex.`,
      ]);
  const places = rows.map((row) => indexOfRow[row]!);
  return {
    ids: rows.map((row) => tags.text(tagOfRow[row]!)),
    value: Float64Array.from(rows, (row) => worth?.[row] ?? 0),
    coancestry: coancestryBlock(pedigree, places, places),
    group,
    totals: [0.5, 0.5],
  };
}

async function write(
  shell: Shell,
  { tags, tagOfRow }: PedigreeFile,
  rows: readonly number[],
  { share }: Contributions,
): Promise<void> {
  const writer = new CsvWriter(shell.out);
  writer.ascii('tag,contribution\n');
  for (const [k, row] of rows.entries()) {
    writer.tag(tags, tagOfRow[row]!);
    writer.ascii(`,${share[k]!.toFixed(12)}\n`);
    if (writer.full) await writer.flush();
  }
  await writer.flush();
}
