import { createReadStream, existsSync } from 'node:fs';
import { Readable } from 'node:stream';
import type { QueryRunner } from 'typeorm';
import { ZipFile } from 'yazl';
import type { PhotoFiles } from '../photo-files/photo-files.js';
import { photoName } from '../sharing/line-file/manifest.js';
import { countOwnRows, ownPhotoFiles, type OwnRow, ownRows } from '../stock/own-data/own-rows.js';
import { MOST_ON_PAGE, ownDataPage, type PageTable } from './own-data-page.js';

const FORMAT = 'linewright-own-data';
const VERSION = 1;

interface Whose {
  readonly id: string;
  readonly name: string;
  readonly role: string;
}

/** Rows as they come, as one JSON array; the first of them are kept for the page. */
async function* asJson(
  rows: AsyncIterable<readonly OwnRow[]>,
  first: OwnRow[],
): AsyncGenerator<string> {
  let lead = '[\n';
  for await (const some of rows) {
    first.push(...some.slice(0, MOST_ON_PAGE - first.length));
    yield `${lead}${some.map((row) => JSON.stringify(row)).join(',\n')}`;
    lead = ',\n';
  }
  yield lead === '[\n' ? '[]\n' : '\n]\n';
}

/**
 * Everything that is somebody's own as a ZIP file: a table as JSON each, photos, and a page for people. It is read at one moment, on a
 * connection of its own, which is given back when the stream ends. Memory: some thousand rows, and the first rows of each table.
 */
export const ownDataFile = async (
  runner: QueryRunner,
  photos: PhotoFiles,
  whose: Whose,
  madeAt: Date,
): Promise<Readable> => {
  await runner.startTransaction('REPEATABLE READ');
  const { manager } = runner;
  const counted = await countOwnRows(manager, whose.id);
  const pictures = (await ownPhotoFiles(manager, whose.id)).filter(({ sha256 }) =>
    existsSync(photos.pathOf(sha256, 'full')),
  );
  const zip = new ZipFile();
  const mtime = { mtime: madeAt };
  const tables: PageTable[] = counted.map(({ table: { table, title }, count }) => ({
    ...{ title, count, file: `data/${table}.json`, first: [] },
  }));
  zip.addBuffer(
    Buffer.from(
      `${JSON.stringify(
        {
          ...{ format: FORMAT, version: VERSION, madeAt: madeAt.toISOString(), person: whose },
          tables: tables.map(({ title, file, count }) => ({ title, file, count })),
        },
        null,
        1,
      )}\n`,
    ),
    'contents.json',
    mtime,
  );
  counted.forEach(({ table }, k) => {
    const { file, first } = tables[k]!;
    zip.addReadStreamLazy(file, mtime, (give) => {
      give(null, Readable.from(asJson(ownRows(manager, table, whose.id), first as OwnRow[])));
    });
  });
  for (const { sha256, mediaType } of pictures)
    zip.addReadStreamLazy(photoName(sha256, mediaType), { compress: false, ...mtime }, (give) => {
      give(null, createReadStream(photos.pathOf(sha256, 'full')));
    });
  zip.addReadStreamLazy('read-me.html', mtime, (give) => {
    give(null, Readable.from([ownDataPage(whose.name, madeAt, tables, pictures.length)]));
  });
  zip.end();
  const stream = zip.outputStream as Readable;
  // What goes wrong on the way ends the file before its end, so that nobody takes it for whole.
  zip.on('error', (error: Error) => stream.destroy(error));
  return stream;
};
