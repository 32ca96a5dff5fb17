import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import type { Readable } from 'node:stream';
import { ZipFile } from 'yazl';
import { type InstallKeys, signatureOf } from '../install-keys.js';
import {
  LINE_FILE,
  LINE_FILE_VERSION,
  MANIFEST,
  type Manifest,
  type ManifestPart,
  PAGE,
  photoName,
  RECORDS,
  SIGNATURE,
} from './manifest.js';

/** A picture that lies on the disk, by the hash of its content. */
export interface PhotoOnDisk {
  readonly path: string;
  readonly sha256: string;
  readonly mediaType: string;
  readonly bytes: number;
}

export interface LineFileContent {
  readonly madeAt: Date;
  readonly makerName: string;
  readonly madeFor: string | null;
  /** The records as JSON. */
  readonly records: string;
  /** A page for people; none of a file that only programs read. */
  readonly page: string | null;
  readonly photos: readonly PhotoOnDisk[];
}

const partOf = (name: string, content: Buffer): ManifestPart => ({
  name,
  bytes: content.length,
  sha256: createHash('sha256').update(content).digest('hex'),
});

const once = (photos: readonly PhotoOnDisk[]): PhotoOnDisk[] => [
  ...new Map(photos.map((photo) => [photo.sha256, photo])).values(),
];

/** The file as it is read from the stream; pictures are read from the disk meanwhile. Memory: the records and the page. */
export const lineFileStream = (content: LineFileContent, keys: InstallKeys): Readable => {
  const { madeAt, makerName, madeFor } = content;
  const texts: [string, Buffer][] = [[RECORDS, Buffer.from(content.records)]];
  if (content.page !== null) texts.push([PAGE, Buffer.from(content.page)]);
  const photos = once(content.photos).map((photo) => ({
    ...photo,
    name: photoName(photo.sha256, photo.mediaType),
  }));
  const manifest: Manifest = {
    ...{ format: LINE_FILE, version: LINE_FILE_VERSION, madeAt: madeAt.toISOString(), madeFor },
    maker: {
      ...{ install: keys.install, name: makerName },
      ...{ signingKey: keys.signingKey, readingKey: keys.readingKey },
    },
    parts: [
      ...texts.map(([name, text]) => partOf(name, text)),
      ...photos.map(({ name, bytes, sha256 }) => ({ name, bytes, sha256 })),
    ],
  };
  const signed = Buffer.from(`${JSON.stringify(manifest, null, 1)}\n`);
  const zip = new ZipFile();
  const mtime = { mtime: madeAt };
  zip.addBuffer(signed, MANIFEST, mtime);
  zip.addBuffer(Buffer.from(`${signatureOf(signed, keys)}\n`), SIGNATURE, mtime);
  for (const [name, text] of texts) zip.addBuffer(text, name, mtime);
  for (const { name, path } of photos)
    zip.addReadStreamLazy(name, { compress: false, ...mtime }, (give) =>
      give(null, createReadStream(path)),
    );
  zip.end();
  const stream = zip.outputStream as Readable;
  // A picture that went away under it ends the file before its end, so that nobody takes it for whole.
  zip.on('error', (error: Error) => stream.destroy(error));
  return stream;
};
