import { randomUUID } from 'node:crypto';
import { buffer } from 'node:stream/consumers';
import { fromBufferPromise } from 'yauzl';
import { expect } from 'vitest';
import { type InstallKeys, makeKeys } from '../../apps/api/src/sharing/install-keys.js';
import { lineFileStream } from '../../apps/api/src/sharing/line-file/write-line-file.js';
import type { RunningApi } from './harness.js';

/** A line as its owner gives it, with pictures and care plans where wanted. */
export const lineFile = async (
  api: Pick<RunningApi, 'http'>,
  lineId: string,
  wished = '',
): Promise<Buffer> => {
  const response = await api.http(`/export/line/${lineId}.zip${wished}`);
  expect(response.status).toBe(200);
  return Buffer.from(await response.arrayBuffer());
};

/** Every part of a ZIP file by name. */
export const partsOfZip = async (bytes: Buffer): Promise<Map<string, Buffer>> => {
  const zip = await fromBufferPromise(bytes, { lazyEntries: true, autoClose: false });
  const parts = new Map<string, Buffer>();
  for await (const entry of zip.eachEntry())
    parts.set(entry.fileName, await buffer(await zip.openReadStreamPromise(entry)));
  return parts;
};

/** The records in a line's file, as JSON. */
export const lineJson = async (
  api: Pick<RunningApi, 'http'>,
  lineId: string,
  wished = '',
): Promise<string> =>
  ((await partsOfZip(await lineFile(api, lineId, wished))).get('line.json') ?? '').toString();

let known: Promise<InstallKeys> | null = null;
/** The keys of somebody who writes files by hand. */
export const otherKeys = (): Promise<InstallKeys> => (known ??= makeKeys());

interface Written {
  readonly version: number;
  readonly exportedAt: string;
  readonly keeper: { readonly name: string };
  readonly installs: readonly { readonly id: string; readonly name: string }[];
}

/** Records as JSON in a file of their version: from version 5 on signed, by the keys given or by somebody who writes files by hand. */
export const fileOf = async (text: string, by?: InstallKeys): Promise<Buffer> => {
  let written: Written;
  try {
    written = JSON.parse(text) as Written;
  } catch {
    return Buffer.from(text);
  }
  if (!(written.version >= 5)) return Buffer.from(text);
  const keys = by ?? (await otherKeys());
  const installs = [{ id: keys.install, name: written.keeper.name }, ...written.installs];
  const content = {
    ...{ madeAt: new Date(written.exportedAt), makerName: written.keeper.name, madeFor: null },
    ...{ records: JSON.stringify({ ...written, installs }), page: null, photos: [] },
  };
  return buffer(lineFileStream(content, keys));
};

/** Sends a line file; answers the id under which it is then looked at or taken in. */
export const sent = async (api: Pick<RunningApi, 'http'>, bytes: Uint8Array): Promise<string> => {
  const id = randomUUID();
  const response = await api.http(`/line-files/${id}`, {
    method: 'PUT',
    headers: { 'content-type': 'application/octet-stream' },
    body: bytes as BodyInit,
  });
  expect(response.status).toBe(204);
  return id;
};

/** Sends records that were written as JSON, in a file of their version. */
export const sentText = async (api: Pick<RunningApi, 'http'>, text: string): Promise<string> =>
  sent(api, await fileOf(text));
