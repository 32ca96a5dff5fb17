import 'reflect-metadata';
import { createWriteStream } from 'node:fs';
import { rename, rm } from 'node:fs/promises';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { ExportService } from '../import-and-export/export.service.js';
import { lineWithCode } from '../stock/line-rows.js';
import { CommandError } from './owner.js';
import { runJob } from './run.js';

/** Written beside the file and then put in its place, so that a failed export leaves an older one whole. */
const write = async (
  file: string,
  pieces: Iterable<string>,
  signal: AbortSignal,
): Promise<void> => {
  const draft = `${file}.part-${process.pid}`;
  try {
    await pipeline(Readable.from(pieces), createWriteStream(draft), { signal });
    await rename(draft, file);
  } catch (error) {
    await rm(draft, { force: true });
    if (signal.aborted) throw new CommandError(`Stopped: ${file} is as it was.`);
    throw error;
  }
};

await runJob({
  usage: 'npm run export -- FILE.csv [--line CODE]',
  async run(dataSource, person, file, { line, signal }) {
    const lineId = line === undefined ? undefined : await lineWithCode(dataSource, person.id, line);
    if (lineId === null) throw new CommandError(`There is no line with code "${line}".`);
    const pieces = await new ExportService(dataSource).pedigree(person, lineId);
    let rows = -1;
    const counted = function* (): Generator<string> {
      for (const piece of pieces) {
        rows += piece.split('\n').length - 1;
        yield piece;
      }
    };
    await write(file, counted(), signal);
    process.stdout.write(`${rows} fish written to ${file}.\n`);
    return 0;
  },
});
