import { parseArgs } from 'node:util';
import {
  PERMANENT,
  valuesAtHeritability,
  valuesByReml,
  type AnimalScores,
  type Components,
  type Estimate,
  type Valuation,
} from '@linewright/merit';
import { decimalIn } from '@linewright/pedigree';
import { everyCommand, named, open, type Shell, tellNotes, understood } from './command.js';
import { CsvWriter } from './csv-writer.js';
import { InputError, readPedigree, type PedigreeFile } from './read-pedigree.js';
import {
  classColumn,
  covariateColumn,
  expectFixed,
  numbersOf,
  sharedColumn,
} from './score-columns.js';
import { TagTable } from './tag-table.js';

const USAGE = `Usage: npm run -s values -- FILE.csv --trait COLUMN[,COLUMN] [--fixed COLUMN,...] [--covariate COLUMN,...]
         [--common COLUMN] [--permanent] [--heritability H] [--components] [--add-unlisted] [--allow-selfing]

FILE.csv has columns tag, sire and dam, and columns of scores and of what else is known, in any order; rows in any order; - reads
standard input. Several rows of a fish are repeated looks at it. A score is empty where the fish was not scored. Prints each fish's
breeding value, its standard error and its accuracy, scored or not; the variances are estimated by REML and told on standard error.

  --trait          column of scores; several parted by commas are taken together, with their genetic correlations
  --fixed          columns of classes, such as season or sex; the first stands for the mean
  --covariate      columns of numbers, such as age
  --common         column of what fish share beside their genes, such as brood or vessel
  --permanent      fit what stays with a fish from look to look but is not inherited
  --heritability   take this heritability as given, above 0 and below 1 (one trait); the scale is estimated by REML at it
  --components     print the variances, the heritability and the fixed effects as one JSON object instead
  --add-unlisted   take a parent without a row of its own for a founder
  --allow-selfing  accept one individual as both parents`;

const readArguments = ({ typed }: Shell) =>
  parseArgs({
    args: [...typed],
    allowPositionals: true,
    options: {
      trait: { type: 'string' },
      fixed: { type: 'string' },
      covariate: { type: 'string' },
      common: { type: 'string' },
      permanent: { type: 'boolean', default: false },
      heritability: { type: 'string' },
      components: { type: 'boolean', default: false },
      ...everyCommand,
    },
  });

export async function values(shell: Shell): Promise<void> {
  const typed = understood(shell, () => readArguments(shell), USAGE);
  if (typed === null) return;
  const { file, values, reading } = typed;
  const traits = listOf(values.trait);
  if (traits.length === 0) throw new InputError([USAGE]);
  const [fixed, covariates] = [listOf(values.fixed), listOf(values.covariate)];
  const common = listOf(values.common);
  if (common.length > 1) throw new InputError(['--common takes one column.']);
  expectOnce([...traits, ...fixed, ...covariates, ...common]);
  const given = heritabilityIn(values.heritability);
  const read = await named(file, () =>
    readPedigree(open(shell, file), {
      ...reading,
      columns: [...traits, ...fixed, ...covariates, ...common],
      repeatedRows: true,
    }),
  );
  tellNotes(shell, file, read.notes);
  const valuation = await named(file, async () => {
    const scores = scoresOf(read, { traits, fixed, covariates, common });
    return valued({ ...scores, permanent: values.permanent }, given);
  });
  tellNotes(shell, file, [
    ...valuation.notes.map(({ code, message }) => `${message} (${code})`),
    told(valuation, values.heritability),
  ]);
  if (values.components)
    shell.out.write(`${JSON.stringify(componentsObject(valuation, traits, common[0]))}\n`);
  else await writeValues(shell, read, valuation);
}

const listOf = (text: string | undefined): string[] =>
  (text ?? '').split(',').flatMap((name) => (name.trim() === '' ? [] : [name.trim()]));

interface ColumnNames {
  readonly traits: readonly string[];
  readonly fixed: readonly string[];
  readonly covariates: readonly string[];
  readonly common: readonly string[];
}

function scoresOf({ pedigree, indexOfRow, looks }: PedigreeFile, names: ColumnNames): AnimalScores {
  const traits = names.traits.map((name) => ({ name, values: numbersOf(looks, name) }));
  const isScored = (row: number): boolean =>
    traits.some(({ values }) => !Number.isNaN(values[row]!));
  const fixed = [
    ...names.fixed.map((name) => classColumn(looks, name, isScored)),
    ...names.covariates.map((name) => covariateColumn(looks, name)),
  ];
  expectFixed(looks, fixed, isScored);
  return {
    pedigree,
    fish: looks.fish.map((fish) => indexOfRow[fish]!),
    traits,
    fixed,
    shared: names.common.map((name) => sharedColumn(looks, name, isScored)),
  };
}

const valued = (scores: AnimalScores, heritability: number | undefined): Valuation =>
  heritability === undefined ? valuesByReml(scores) : valuesAtHeritability(scores, heritability);

/** A column has one part: a trait explained by itself would leave nothing to estimate. */
function expectOnce(names: readonly string[]): void {
  const again = names.find((name, k) => names.indexOf(name) < k);
  if (again !== undefined)
    throw new InputError([`The column "${again}" is named twice: name it once, for one purpose.`]);
}

function heritabilityIn(typed: string | undefined): number | undefined {
  if (typed === undefined) return undefined;
  const value = decimalIn(typed);
  if (value === null)
    throw new InputError([`--heritability takes a number above 0 and below 1, not "${typed}".`]);
  return value;
}

const shown = ({ value, standardError }: Estimate): string =>
  `${Number(value.toPrecision(6))}${standardError === null ? '' : ` (standard error ${Number(standardError.toPrecision(4))})`}`;

/** The variances in words, for standard error. */
function told({ components, values }: Valuation, given: string | undefined): string {
  const { random, residual, heritability, restrictedLogLikelihood, iterations } = components;
  const how =
    given === undefined
      ? `variances by REML in ${iterations} steps`
      : `heritability ${given} taken as given; the scale, and with it every standard error, by REML at that heritability`;
  const perTrait = values.map(({ trait }, t) => {
    const parts = [...random, residual].map(
      ({ name, estimates }) => `${name} ${shown(estimates[t]![t]!)}`,
    );
    return `${trait}: ${parts.join(', ')}; heritability ${shown(heritability[t]!)}`;
  });
  return `${how}. ${perTrait.join('. ')}. Restricted log likelihood ${restrictedLogLikelihood.toFixed(6)}.`;
}

function componentsObject({ components }: Valuation, traits: readonly string[], common?: string) {
  const one = traits.length === 1;
  const shape = <T>(rows: readonly (readonly T[])[] | undefined): unknown =>
    rows === undefined ? null : one ? rows[0]![0]! : rows;
  const list = <T>(values: readonly T[]): unknown => (one ? values[0]! : values);
  const termOf = (name: string | undefined) =>
    components.random.find((term) => name !== undefined && term.name === name)?.estimates;
  const parts: readonly (readonly [string, readonly (readonly Estimate[])[] | undefined])[] = [
    ['additive', components.random[0]!.estimates],
    ['common', termOf(common)],
    ...(termOf(PERMANENT) === undefined ? [] : [['permanent', termOf(PERMANENT)] as const]),
    ['residual', components.residual.estimates],
  ];
  const each = (pick: (estimate: Estimate) => number | null) => ({
    ...Object.fromEntries(
      parts.map(([name, rows]) => [name, shape(rows?.map((row) => row.map(pick)))]),
    ),
    heritability: list(components.heritability.map(pick)),
  });
  return {
    traits,
    ...each(({ value }) => value),
    standard_errors: each(({ standardError }) => standardError),
    ...(one ? {} : { genetic_correlations: components.geneticCorrelations }),
    restricted_log_likelihood: components.restrictedLogLikelihood,
    iterations: components.iterations,
    fixed_effects: fixedEffects(components),
  };
}

function fixedEffects({ fixedEffects: effects }: Components) {
  return effects.map(({ trait, column, level, value, standardError }) => ({
    trait,
    column,
    level,
    effect: value,
    standard_error: standardError,
  }));
}

async function writeValues(
  shell: Shell,
  { tags, tagOfRow, indexOfRow }: PedigreeFile,
  { values }: Valuation,
): Promise<void> {
  const writer = new CsvWriter(shell.out);
  const figures = ['breeding_value', 'standard_error', 'accuracy'];
  const columns = values.flatMap(({ trait }) =>
    figures.map((name) => (values.length === 1 ? name : `${name}_${trait}`)),
  );
  // Names of columns are quoted and guarded as tags are.
  const names = new TagTable();
  ['tag', ...columns].forEach((name, k) => {
    const bytes = new TextEncoder().encode(name);
    if (k > 0) writer.ascii(',');
    writer.tag(names, names.number(bytes, 0, bytes.length));
  });
  writer.ascii('\n');
  for (let row = 0; row < tagOfRow.length; row++) {
    const index = indexOfRow[row]!;
    writer.tag(tags, tagOfRow[row]!);
    for (const { value, standardError, accuracy } of values)
      for (const figure of [value, standardError, accuracy])
        writer.ascii(`,${figure[index]!.toFixed(12)}`);
    writer.ascii('\n');
    if (writer.full) await writer.flush();
  }
  await writer.flush();
}
