import { createHash, generateKeyPairSync, sign } from 'node:crypto';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buffer } from 'node:stream/consumers';
import { Ajv2020 } from 'ajv/dist/2020.js';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ZipFile } from 'yazl';
import { lineFileStream } from '../../apps/api/src/sharing/line-file/write-line-file.js';
import { lineFileSchema } from '../../apps/api/src/sharing/line-file/line-file-schema.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';
import { fileOf, lineFile, otherKeys, partsOfZip, sent } from './line-files.js';

const PUBLISHED = new URL('../../docs/line-file.schema.json', import.meta.url);
const ASKED = `added updated conflicts senderName maker { standing words }`;
const PREVIEW = `mutation ($file: ID!) { previewShare(file: $file) { ${ASKED} } }`;
const ACCEPT = `mutation ($file: ID!) { acceptShare(file: $file) { ${ASKED} } }`;
const IMPORT = `mutation ($text: String!) { confirmImport(fileName: "f.csv", text: $text, columns: []) { fish } }`;
const CSV =
  'tag,sire,dam,sex,hatch_date,line\nS,,,male,2024-01-01,R\nD,,,female,2024-01-01,R\nA<b>,S,D,male,2024-06-01,R\nB,S,D,female,2024-06-01,R\nC,A<b>,B,female,2025-01-01,R\n';

interface Report {
  readonly added: number;
  readonly maker: { readonly standing: string; readonly words: string };
}

/** A ZIP file of these parts, in their order; compressed. */
const zipOf = (parts: Iterable<readonly [string, Buffer]>): Promise<Buffer> => {
  const zip = new ZipFile();
  for (const [name, content] of parts) zip.addBuffer(content, name);
  zip.end();
  return buffer(zip.outputStream);
};

/** The same bytes with every place of one name written as another of its length, as no writer of ZIP files would do it. */
const renamed = (zip: Buffer, from: string, to: string): Buffer => {
  const changed = Buffer.from(zip);
  for (let at = changed.indexOf(from); at >= 0; at = changed.indexOf(from, at + 1))
    changed.write(to, at, 'latin1');
  return changed;
};

describe('the file of a line', () => {
  let ours: RunningApi;
  let theirs: RunningApi;
  let line = '';
  let file: Buffer;
  let parts: Map<string, Buffer>;
  let picture = '';

  const take = async (api: RunningApi, bytes: Uint8Array): Promise<Report> =>
    (await api.graphql<{ acceptShare: Report }>(ACCEPT, { file: await sent(api, bytes) }))
      .acceptShare;
  const fishIn = async (api: RunningApi): Promise<string[]> => {
    const { fishList } = await api.graphql<{ fishList: { edges: { node: { tag: string } }[] } }>(
      '{ fishList(first: 50) { edges { node { tag } } } }',
    );
    return fishList.edges.map(({ node }) => node.tag).sort();
  };

  beforeAll(async () => {
    [ours, theirs] = await Promise.all([startApi(), startApi()]);
    await ours.graphql(IMPORT, { text: CSV });
    const { lines, fishList } = await ours.graphql<{
      lines: { id: string }[];
      fishList: { edges: { node: { id: string; revision: number } }[] };
    }>('{ lines { id } fishList(first: 1) { edges { node { id revision } } } }');
    line = lines[0]!.id;
    await ours.graphql(
      'mutation ($input: CorrectFishInput!) { correctFish(input: $input) { id } }',
      {
        input: { ...fishList.edges[0]!.node, note: '<script>alert(1)</script>' },
      },
    );
    picture = crypto.randomUUID();
    const image = await sharp({
      create: { width: 80, height: 60, channels: 3, background: '#336699' },
    })
      .jpeg()
      .toBuffer();
    const added = await ours.http(
      `/photos/${picture}?kind=fish&of=${fishList.edges[0]!.node.id}&caption=At%20home`,
      { method: 'PUT', body: new Uint8Array(image), headers: { origin: ours.url } },
    );
    expect(added.status).toBe(200);
    const step = { id: 'cover', title: 'Cover', kind: 'DO', basis: 'OWN' };
    await ours.graphql(
      'mutation ($input: SaveCareTemplateInput!) { saveCareTemplate(input: $input) { id } }',
      {
        input: {
          ...{ lineId: line, name: 'Short' },
          steps: [{ ...step, after: [{ after: 'spawned', hours: 6 }] }],
        },
      },
    );
    file = await lineFile(ours, line, '?photos=yes&plans=yes');
    parts = await partsOfZip(file);
  });
  afterAll(() => Promise.all([ours.close(), theirs.close()]));

  it('holds the records after the published schema, which fits nothing else', () => {
    const schema = JSON.stringify(lineFileSchema(), null, 2);
    if (process.env['WRITE_SCHEMA'] === '1') writeFileSync(PUBLISHED, `${schema}\n`);
    expect(JSON.parse(readFileSync(PUBLISHED, 'utf8'))).toEqual(JSON.parse(schema));
    const fits = new Ajv2020({ strict: false, validateFormats: false }).compile(
      JSON.parse(schema) as object,
    );
    const written = JSON.parse(parts.get('line.json')!.toString()) as {
      records: Record<string, Record<string, unknown>[]>;
    };
    expect([fits(written), fits.errors]).toEqual([true, null]);
    written.records['fish']![0]!['sex'] = 'boy';
    expect(fits(written)).toBe(false);
  });

  it('has its pictures and care plans where they are wanted, and a page that nothing has to be run for', async () => {
    expect([...parts.keys()].map((name) => name.replace(/[\da-f]{64}/, 'HASH')).sort()).toEqual(
      ['line.json', 'manifest.json', 'photos/HASH.jpg', 'read-me.html', 'signature.txt'].sort(),
    );
    const page = parts.get('read-me.html')!.toString();
    expect(page).toMatch(/<svg [^>]*aria-label="Pedigree"/);
    expect(page.match(/<title>A&lt;b&gt;<\/title>/g)).toHaveLength(1);
    expect(page).toContain('&lt;script&gt;alert(1)');
    expect(page).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)|\son\w+=/);
    const few = await partsOfZip(await lineFile(ours, line));
    expect([...few.keys()].some((name) => name.startsWith('photos/'))).toBe(false);
    const { records } = JSON.parse(few.get('line.json')!.toString()) as {
      records: Record<string, unknown[]>;
    };
    expect([records['photos'], records['carePlans']]).toEqual([[], []]);
  });

  /** Parts of the file with others in their place, signed by somebody else in their own name. */
  const signedBySomebody = async (change: (text: string) => string): Promise<Buffer> =>
    fileOf(change(parts.get('line.json')!.toString()));
  const manifest = (): { maker: { install: string }; parts: object[]; version: number } =>
    JSON.parse(parts.get('manifest.json')!.toString()) as never;
  const withPart = (name: string, content: Buffer | string): Promise<Buffer> =>
    zipOf([...new Map([...parts, [name, Buffer.from(content)]])]);

  const spoilt: [string, () => Promise<Buffer> | Buffer, RegExp][] = [
    ['cut off', () => file.subarray(0, file.length - 200), /not a complete ZIP file/],
    [
      'with a fish that was altered',
      () => withPart('line.json', parts.get('line.json')!.toString().replace('"S"', '"X"')),
      /part line\.json was altered/,
    ],
    [
      'with another picture',
      async () => {
        const name = [...parts.keys()].find((one) => one.startsWith('photos/'))!;
        return withPart(name, Buffer.alloc(parts.get(name)!.length, 7));
      },
      /photos\/.* was altered/,
    ],
    [
      'with an altered manifest',
      () =>
        withPart('manifest.json', parts.get('manifest.json')!.toString().replace('Test', 'Best')),
      /signature does not fit/,
    ],
    [
      'without a signature',
      () => zipOf([...parts].filter(([n]) => n !== 'signature.txt')),
      /no signature\.txt/,
    ],
    [
      'signed again in the same name, with a key of its own',
      async () => {
        const { privateKey, publicKey } = generateKeyPairSync('ed25519');
        const forged = manifest();
        Object.assign(forged.maker, { signingKey: publicKey.export({ format: 'jwk' }).x });
        const text = Buffer.from(JSON.stringify(forged));
        const signature = sign(
          null,
          Buffer.concat([Buffer.from('linewright line file\n'), text]),
          privateKey,
        );
        return zipOf(
          new Map([
            ...parts,
            ['manifest.json', text],
            ['signature.txt', Buffer.from(signature.toString('base64'))],
          ]),
        );
      },
      /from another install than the one that signed it/,
    ],
    [
      'signed in another name over the records of this one',
      async () => {
        const somebody = await otherKeys();
        const own = JSON.parse(parts.get('line.json')!.toString()) as { installs: object[] };
        const signed = await partsOfZip(await fileOf(JSON.stringify(own), somebody));
        const zip = new Map([...signed, ['line.json', parts.get('line.json')!] as const]);
        return zipOf(zip);
      },
      /part line\.json (was altered|has not its length)/,
    ],
    [
      'with a part more',
      () => withPart('more.txt', 'x'),
      /holds more\.txt, which its manifest does not name/,
    ],
    [
      'that climbs out of its folder',
      async () => renamed(await withPart('aa/bb.txt', 'x'), 'aa/bb.txt', '../bb.txt'),
      /invalid relative path/,
    ],
    [
      'with two parts of one name',
      async () => renamed(await withPart('read-xx.html', 'x'), 'read-xx.html', 'read-me.html'),
      /holds read-me\.html twice/,
    ],
    [
      'that grows without end',
      () => withPart('big.txt', Buffer.alloc(64 * 1024 * 1024)),
      /unpack to far more/,
    ],
    [
      'of too many parts',
      () =>
        zipOf([
          ...parts,
          ...Array.from({ length: 20_100 }, (_, k) => [`x${k}`, Buffer.alloc(0)] as const),
        ]),
      /more than 20002 parts/,
    ],
    [
      'of a newer program',
      () => withPart('manifest.json', JSON.stringify({ ...manifest(), version: 6 })),
      /version 6.*use the newer release on both sides/,
    ],
    ['that is another ZIP file', () => zipOf([['a.txt', Buffer.from('a')]]), /no manifest\.json/],
    [
      'of records that have lost their signature',
      () => parts.get('line.json')!,
      /without its signature/,
    ],
    [
      'signed with another maker in its records',
      async () => {
        const text = parts.get('line.json')!.toString();
        const keys = await otherKeys();
        // The helper puts the signer first; here somebody else stands there.
        const zip = await partsOfZip(await fileOf(text, keys));
        expect(zip.get('line.json')!.toString()).toContain(keys.install);
        return buffer(
          lineFileStream(
            {
              ...{ madeAt: new Date(0), makerName: 'Somebody', madeFor: null },
              ...{ records: text, page: null, photos: [] },
            },
            keys,
          ),
        );
      },
      /name another install as their maker/,
    ],
  ];

  it.each(spoilt)(
    'is refused %s, with the reason, and nothing is changed',
    async (_, make, words) => {
      const bytes = await make();
      for (const operation of [PREVIEW, ACCEPT]) {
        const { errors } = await theirs.send(operation, { file: await sent(theirs, bytes) });
        expect(errors?.[0]?.extensions.code).toBe('SHARE_INVALID');
        expect(errors?.[0]?.message).toMatch(words);
        expect(errors?.[0]?.message).toMatch(/Nothing was changed|Choose/);
      }
      expect(await fishIn(theirs)).toEqual([]);
      const kept = await (
        await recordsOf(theirs)
      ).query('SELECT count(*)::int AS n FROM record_stamp');
      expect(kept).toEqual([{ n: 0 }]);
    },
  );

  it('is refused with a picture that is none, and nothing is changed', async () => {
    const records = JSON.parse(parts.get('line.json')!.toString()) as {
      records: { photos: Record<string, unknown>[] };
    };
    const content = Buffer.concat([Buffer.from([0xff, 0xd8, 0xff]), Buffer.alloc(300, 9)]);
    const sha256 = createHash('sha256').update(content).digest('hex');
    const path = join(mkdtempSync(join(tmpdir(), 'line-file-')), 'none.jpg');
    writeFileSync(path, content);
    Object.assign(records.records.photos[0]!, { sha256, bytes: content.length });
    const keys = await otherKeys();
    const installs = [{ id: keys.install, name: 'Somebody' }];
    const bytes = await buffer(
      lineFileStream(
        {
          ...{ madeAt: new Date(0), makerName: 'Somebody', madeFor: null, page: null },
          records: JSON.stringify({ ...records, installs }),
          photos: [{ path, sha256, mediaType: 'image/jpeg', bytes: content.length }],
        },
        keys,
      ),
    );
    const { errors } = await theirs.send(ACCEPT, { file: await sent(theirs, bytes) });
    expect(errors?.[0]?.extensions.code).toBe('PHOTO_INVALID');
    expect(await fishIn(theirs)).toEqual([]);
  });

  it('says who signed it, and is taken in with its pictures and care plans', async () => {
    const somebody = await signedBySomebody((text) => text);
    const preview = async (bytes: Buffer): Promise<Report> =>
      (await theirs.graphql<{ previewShare: Report }>(PREVIEW, { file: await sent(theirs, bytes) }))
        .previewShare;
    const [own, other] = [await preview(file), await preview(somebody)];
    expect(own.maker.standing).toBe('UNKNOWN');
    expect(own.maker.words.split(' ')).toHaveLength(6);
    expect(other.maker.words).not.toBe(own.maker.words);
    expect(parts.get('read-me.html')!.toString()).toContain(own.maker.words);
    const report = await take(theirs, file);
    expect(report.added).toBeGreaterThan(5);
    expect(await fishIn(theirs)).toEqual(await fishIn(ours));
    const [there, here] = await Promise.all(
      [theirs, ours].map(async (api) => {
        const got = await api.http(`/photos/${picture}`);
        expect([got.status, (await api.http(`/photos/${picture}/small`)).status]).toEqual([
          200, 200,
        ]);
        return Buffer.from(await got.arrayBuffer());
      }),
    );
    expect(there).toEqual(here);
    expect(await (await recordsOf(theirs)).query('SELECT name FROM care_template')).toEqual([
      { name: 'Short' },
    ]);
    expect((await take(theirs, file)).added).toBe(0);
    expect((await take(ours, await lineFile(theirs, line, '?photos=yes&plans=yes'))).added).toBe(0);
    const mine = await ours.graphql<{ previewShare: Report }>(PREVIEW, {
      file: await sent(ours, file),
    });
    expect(mine.previewShare.maker.standing).toBe('OWN');
  });

  it('given without its pictures leaves their records out until they come', async () => {
    const fresh = await startApi();
    try {
      const bare = await fileOf(parts.get('line.json')!.toString());
      const { acceptShare } = await fresh.graphql<{
        acceptShare: { items: { recordKind: string; changes: { after: string }[] }[] };
      }>(
        'mutation ($file: ID!) { acceptShare(file: $file) { items { recordKind changes { after } } } }',
        { file: await sent(fresh, bare) },
      );
      const photo = acceptShare.items.find(({ recordKind }) => recordKind === 'PHOTO');
      expect(photo?.changes).toEqual([{ after: 'picture, which is not in the file' }]);
      expect((await fresh.http(`/photos/${picture}`)).status).toBe(404);
      await take(fresh, file);
      expect((await fresh.http(`/photos/${picture}`)).status).toBe(200);
    } finally {
      await fresh.close();
    }
  });

  it('a restored or new install signs with keys of its own', async () => {
    const words = async (api: RunningApi, bytes: Buffer): Promise<string> =>
      (await api.graphql<{ previewShare: Report }>(PREVIEW, { file: await sent(api, bytes) }))
        .previewShare.maker.words;
    const [a, b] = [await words(ours, file), await words(ours, await lineFile(theirs, line))];
    expect(a).not.toBe(b);
  });
});
