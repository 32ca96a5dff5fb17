import type { Entry, ZipFile } from 'yauzl';

/** What a ZIP file may hold. */
export interface ZipBounds {
  readonly mostEntries: number;
  /** All that it would unpack to, in bytes. */
  readonly mostBytes: number;
}

const BEGINNING = Buffer.from('PK');

/** Bytes of a file that {@link beginsAsZip} looks at. */
export const ZIP_BEGINNING = BEGINNING.length;

/** Whether a file begins as ZIP files do, workbooks among them. */
export const beginsAsZip = (bytes: Uint8Array): boolean =>
  BEGINNING.equals(bytes.subarray(0, ZIP_BEGINNING));

/**
 * The list of contents of a ZIP file that was opened with `strictFileNames` and `validateEntrySizes`: names that lead out of the folder and
 * parts that are longer than they say are refused by the reader itself.
 *
 * @param refuse makes the error, from what is wrong
 * @throws what `refuse` makes, for a name that stands twice, too many parts, and more bytes than the bounds
 */
export const entriesOf = async (
  zip: ZipFile,
  { mostEntries, mostBytes }: ZipBounds,
  refuse: (what: string) => Error,
): Promise<Map<string, Entry>> => {
  const entries = new Map<string, Entry>();
  let total = 0;
  for await (const entry of zip.eachEntry()) {
    if (entries.has(entry.fileName)) throw refuse(`it holds ${entry.fileName} twice`);
    if (entries.size >= mostEntries) throw refuse(`it holds more than ${mostEntries} parts`);
    entries.set(entry.fileName, entry);
    total += entry.uncompressedSize;
    if (total > mostBytes)
      throw refuse('it would unpack to far more than a file of its size can hold');
  }
  return entries;
};

/** One part, whole. Memory: the part. */
export const wholeEntry = async (zip: ZipFile, entry: Entry): Promise<Buffer> => {
  const pieces: Buffer[] = [];
  for await (const piece of (await zip.openReadStreamPromise(entry)) as AsyncIterable<Buffer>)
    pieces.push(piece);
  return Buffer.concat(pieces);
};
