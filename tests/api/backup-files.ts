import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { buffer } from 'node:stream/consumers';
import { openPromise } from 'yauzl';
import { ZipFile } from 'yazl';
import type { Manifest } from '../../apps/api/src/backup/manifest.js';

export type Entries = Map<string, Buffer>;

export const sha256 = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');

/** Everything in a ZIP file, by name. */
export const readZip = async (file: string): Promise<Entries> => {
  const zip = await openPromise(file, { lazyEntries: true, autoClose: false });
  const entries: Entries = new Map();
  for await (const entry of zip.eachEntry())
    entries.set(entry.fileName, await buffer(await zip.openReadStreamPromise(entry)));
  zip.close();
  return entries;
};

/** Writes a ZIP file; names stand as they are given, twice too. */
export const writeZip = async (
  file: string,
  entries: readonly (readonly [string, Buffer])[],
): Promise<void> => {
  const zip = new ZipFile();
  // The writer refuses names that lead out of a folder: such a name is put in afterwards, by bytes of its length.
  for (const [name, bytes] of entries) zip.addBuffer(bytes, name.replaceAll('../', 'up-'));
  zip.end();
  let written = await buffer(zip.outputStream as NodeJS.ReadableStream);
  for (const [name] of entries.filter(([other]) => other.includes('../'))) {
    const plain = Buffer.from(name.replaceAll('../', 'up-'));
    for (let at = written.indexOf(plain); at >= 0; at = written.indexOf(plain, at + 1)) {
      written = Buffer.concat([
        written.subarray(0, at),
        Buffer.from(name),
        written.subarray(at + plain.length),
      ]);
    }
  }
  writeFileSync(file, written);
};

export const manifestOf = (entries: Entries): Manifest =>
  JSON.parse((entries.get('manifest.json') ?? Buffer.alloc(0)).toString()) as Manifest;

/** The entries with a manifest that fits them: sums and lengths anew, as somebody who means it would do. */
export const sealed = (entries: Entries, manifest: Manifest): Entries => {
  const measured = (name: string) => {
    const bytes = entries.get(name) ?? Buffer.alloc(0);
    const rows = bytes.filter((byte) => byte === 10).length;
    return { bytes: bytes.length, sha256: sha256(bytes), rows };
  };
  const text = Buffer.from(
    JSON.stringify({
      ...manifest,
      tables: manifest.tables.map((part) => ({
        ...part,
        ...measured(`tables/${part.table}.copy`),
      })),
    }),
  );
  return new Map([
    ...entries,
    ['manifest.json', text],
    ['manifest.sha256', Buffer.from(`${sha256(text)}\n`)],
  ]);
};
