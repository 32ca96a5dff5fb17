import 'reflect-metadata';
import { createWriteStream } from 'node:fs';
import { rename, rm } from 'node:fs/promises';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { ExchangeService } from '../exchange/exchange.service.js';
import { lineWithCode } from '../stock/line-rows.js';
import { ShellError } from './owner.js';
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
    if (signal.aborted) throw new ShellError(`Stopped: ${file} is as it was.`);
    throw error;
  }
};

await runJob({
  usage: 'npm run export -- FILE.csv [--line CODE]',
  async run(dataSource, person, file, { line, clock, signal }) {
    const lineId = line === undefined ? undefined : await lineWithCode(dataSource, person.id, line);
    if (lineId === null) throw new ShellError(`There is no line with code "${line}".`);
    const pieces = await new ExchangeService(dataSource, clock).exportPedigree(person, lineId);
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
