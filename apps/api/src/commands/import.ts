import 'reflect-metadata';
import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { type FileText, fileText, lettersToCheck } from '@linewright/pedigree';
import { ImportsService } from '../import-and-export/imports.service.js';
import type { ImportNote, ImportProblem } from '../import-and-export/import-problem.js';
import { RequestError } from '../errors/request-error.js';
import { runImport } from '../import-and-export/import-in-thread.js';
import { readSheets } from '../import-and-export/read-sheets.js';
import { beginsAsZip } from '../zip-files/zip-entries.js';
import { CommandError } from './owner.js';
import { progressLine } from './progress-line.js';
import { runJob } from './run.js';

const readText = async (file: string): Promise<FileText> => {
  const bytes = await readFile(file).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT')
      throw new CommandError(`There is no file ${file}: give its path from where you stand.`);
    if (error.code === 'EISDIR') throw new CommandError(`${file} is a folder: give a file.`);
    throw error;
  });
  if (beginsAsZip(bytes)) return sheetText(file, bytes);
  return fileText(bytes, (part, encoding) => new TextDecoder(encoding).decode(part));
};

/** Of a workbook the longest sheet, which is said. */
const sheetText = async (file: string, bytes: Uint8Array): Promise<FileText> => {
  const sheets = await readSheets(bytes);
  const sheet = sheets.reduce((longest, one) => (one.rows > longest.rows ? one : longest));
  process.stderr.write(`${file}: the sheet "${sheet.name}" is read.\n`);
  for (const note of sheet.notes) process.stderr.write(`${note}\n`);
  return { text: sheet.text, encoding: 'UTF-8' };
};

const listProblems = (problems: readonly ImportProblem[]): void => {
  for (const { line, column, message, remedy, code } of problems) {
    const where = column === null ? '' : `, column "${column}"`;
    process.stderr.write(`line ${line}${where}: ${message} ${remedy} [${code}]\n`);
  }
  process.stderr.write(`Nothing was imported. Problems: ${problems.length}.\n`);
};

const tellEncoding = (file: string, { text, encoding }: FileText): void => {
  if (encoding === 'UTF-8') return;
  const letters = lettersToCheck(text);
  const look = letters.length === 0 ? '' : ` Check these: ${letters.join(', ')}.`;
  process.stderr.write(
    `${file} was read as ${encoding}.${look} If letters are wrong, save it again as CSV (UTF-8).\n`,
  );
};

const listNotes = (notes: readonly ImportNote[]): void => {
  for (const { line, message } of notes) process.stderr.write(`line ${line}: ${message}\n`);
};

await runJob({
  usage: 'npm run import -- FILE.csv [--owner NAME]',
  async run(dataSource, person, file, { clock, signal }) {
    const read = await readText(file);
    const { text } = read;
    tellEncoding(file, read);
    const progress = progressLine();
    try {
      const task = {
        purpose: 'take',
        fileName: basename(file),
        text,
        columns: [],
        repairs: null,
        account: person,
        at: clock.now().getTime(),
        day: clock.today(),
        latestDay: clock.latestDay(),
        computationId: null,
      } as const;
      const { counts, notes = [] } = await runImport(dataSource, task, {
        onProgress: progress.show,
        signal,
      });
      progress.end();
      listNotes(notes);
      const made = counts!;
      const skipped = made.skippedRows === 0 ? '' : ` ${made.skippedRows} not imported.`;
      process.stdout.write(
        `${made.fish + made.unchanged} rows read for ${person.name}: ${made.fish} fish, ${made.spawns} spawns, ` +
          `${made.lines} lines, ${made.traits} traits, ${made.scores} scores recorded; ` +
          `${made.unchanged} fish were there already.${skipped}\n`,
      );
    } catch (error) {
      progress.end();
      if (!(error instanceof RequestError) || error.code !== 'IMPORT_INVALID') throw error;
      listProblems(await new ImportsService(dataSource, clock).problems(text, person));
      return 1;
    }
    return 0;
  },
});
