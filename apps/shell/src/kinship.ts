import { parseArgs } from 'node:util';
import { coancestry, inbreedingCoefficients } from '@linewright/kinship';
import {
  basisOfInbreeding,
  completeGenerationEquivalents,
  type InbreedingBasis,
  unknownOrigin,
} from '@linewright/pedigree';
import { everyCommand, named, open, type Shell, tellNotes, understood } from './command.js';
import { CsvWriter } from './csv-writer.js';
import { readPairs } from './read-pairs.js';
import { readPedigree, type PedigreeFile } from './read-pedigree.js';

const USAGE = `Usage: npm run -s kinship -- FILE.csv [--pairs PAIRS.csv] [--add-unlisted] [--allow-selfing]

FILE.csv has columns tag, sire and dam in any order, rows in any order, empty where a parent is unknown; - reads
standard input. Prints each fish's inbreeding coefficient and complete generation equivalents; with --pairs (two
columns of tags) the coancestry of each pair instead. 0, NA, N/A, ?, - and unknown as a parent mean that it is not
known, unless a row has that tag; what was read this way is told on standard error, with the number of fish whose F rests on
unknown parents.

A column called spawn (or sibs) tells broods apart: rows with the same value in it are full sibs, also when a parent is
not given. Leave it empty for fish that are not sibs, such as a bag bought of several broods.

  --add-unlisted   take a parent without a row of its own for a founder
  --allow-selfing  accept one individual as both parents`;

const readArguments = ({ typed }: Shell) =>
  parseArgs({
    args: [...typed],
    allowPositionals: true,
    options: {
      pairs: { type: 'string' },
      ...everyCommand,
    },
  });

export async function kinship(shell: Shell): Promise<void> {
  const typed = understood(shell, () => readArguments(shell), USAGE);
  if (typed === null) return;
  const { file, values, reading } = typed;
  const read = await named(file, () => readPedigree(open(shell, file), reading));
  tellNotes(shell, file, read.notes);
  const writer = new CsvWriter(shell.out);
  const leastNote = noteOnUnknownOrigin(read);
  if (leastNote !== null) tellNotes(shell, file, [leastNote]);
  if (values.pairs === undefined) await writeFish(read, writer);
  else await writePairs(shell, read, values.pairs, writer);
  await writer.flush();
}

/** A file cannot say of a founder that it is unrelated, so every unknown parent counts. */
function noteOnUnknownOrigin({ pedigree, indexOfRow }: PedigreeFile): string | null {
  const unknown = unknownOrigin(pedigree, new Uint8Array(pedigree.size));
  const basis = Array.from(indexOfRow, (index) => basisOfInbreeding(pedigree, unknown, index));
  const of = (wanted: InbreedingBasis) => basis.filter((each) => each === wanted).length;
  const [least, own] = [of('at-least'), of('unknown')];
  if (least + own === 0) return null;
  return `every F takes fish with unknown parents as unrelated. Of ${basis.length} fish, ${own} lack a parent themselves (their F is not known) and ${least} have such fish behind them (their F is the value given or more).`;
}

/** Figures as text after a comma. Full sibs share theirs, and writing digits is what takes the time. */
class FigureTexts {
  readonly #texts = new Map<number, string>();
  #last = NaN;
  #text = '';

  constructor(readonly decimals: number) {}

  of(figure: number): string {
    if (figure === this.#last) return this.#text;
    let text = this.#texts.get(figure);
    if (text === undefined) {
      text = `,${figure.toFixed(this.decimals)}`;
      if (this.#texts.size < 100_000) this.#texts.set(figure, text);
    }
    this.#last = figure;
    this.#text = text;
    return text;
  }
}

async function writeFish(
  { pedigree, tags, tagOfRow, indexOfRow }: PedigreeFile,
  writer: CsvWriter,
): Promise<void> {
  const inbreeding = inbreedingCoefficients(pedigree);
  const generations = completeGenerationEquivalents(pedigree);
  writer.ascii('tag,inbreeding_coefficient,complete_generation_equivalents\n');
  const textF = new FigureTexts(12);
  const textG = new FigureTexts(6);
  for (let row = 0; row < tagOfRow.length; row++) {
    const index = indexOfRow[row]!;
    writer.tag(tags, tagOfRow[row]!);
    writer.ascii(textF.of(inbreeding[index]!));
    writer.ascii(textG.of(generations[index]!));
    writer.ascii('\n');
    if (writer.full) await writer.flush();
  }
}

async function writePairs(
  shell: Shell,
  { pedigree, tags, tagOfRow, indexOfRow }: PedigreeFile,
  file: string,
  writer: CsvWriter,
): Promise<void> {
  const indexOfTag = new Int32Array(tags.count);
  tagOfRow.forEach((tag, row) => {
    indexOfTag[tag] = indexOfRow[row]!;
  });
  const pairs = await named(file, () => readPairs(open(shell, file), tags));
  writer.ascii('first,second,coancestry\n');
  for (let k = 0; k < pairs.length; k += 2) {
    const first = pairs[k]!;
    const second = pairs[k + 1]!;
    const value = coancestry(pedigree, indexOfTag[first]!, indexOfTag[second]!);
    writer.tag(tags, first);
    writer.ascii(',');
    writer.tag(tags, second);
    writer.ascii(`,${value.toFixed(12)}\n`);
    if (writer.full) await writer.flush();
  }
}
