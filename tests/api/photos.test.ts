import { createHash, randomUUID } from 'node:crypto';
import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PhotoFiles } from '../../apps/api/src/photo-files/photo-files.js';
import { preparePhoto } from '../../apps/api/src/photo-files/photo-image.js';
import { type RunningApi, startApi } from './harness.js';
import { listenToStatements } from './sent-statements.js';
import { creation, newRecords } from '../new-records.js';

interface Added {
  id: string;
  path: string;
  smallPath: string;
  width: number;
  height: number;
  sha256: string;
  mediaType: string;
  code?: string;
  message?: string;
}

/** A picture of plain stripes, so that turning shows. */
const picture = (width = 60, height = 40, red = 200) =>
  sharp({ create: { width, height, channels: 3, background: { r: red, g: 40, b: 40 } } });

const withPosition = (orientation = 1): Promise<Buffer> =>
  picture()
    .jpeg()
    .withExif({
      IFD0: { Make: 'Invented', Copyright: 'Someone' },
      IFD3: {
        GPSLatitudeRef: 'N',
        GPSLatitude: '51/1 30/1 0/1',
        GPSLongitudeRef: 'E',
        GPSLongitude: '0/1 7/1 0/1',
      },
    })
    .withMetadata({ orientation })
    .toBuffer();

describe('photos', () => {
  let api: RunningApi;
  let fishId = '';
  let photosDir = '';

  beforeAll(async () => {
    photosDir = mkdtempSync(join(tmpdir(), 'linewright-photos-'));
    api = await startApi({ environment: { PHOTOS_DIR: photosDir } });
    fishId = await newRecords(api).createFish({
      tag: 'P-1',
      sex: 'MALE',
      hatchDate: '2025-01-01',
    });
  });
  afterAll(async () => {
    await api.close();
    rmSync(photosDir, { recursive: true, force: true });
  });

  const put = (
    body: Buffer | string,
    { id = randomUUID(), query = `kind=fish&of=${fishId}`, headers = {} as object } = {},
  ): Promise<Response> =>
    api.http(`/photos/${id}?${query}`, {
      method: 'PUT',
      body: typeof body === 'string' ? body : new Uint8Array(body),
      headers: { 'content-type': 'application/octet-stream', ...headers },
    });
  const added = async (body: Buffer, more: Parameters<typeof put>[1] = {}): Promise<Added> => {
    const response = await put(body, more);
    const answer = (await response.json()) as Added;
    expect(response.status, answer.message).toBe(200);
    return answer;
  };
  const refused = async (response: Response): Promise<[number, string, string]> => {
    const { code, message } = (await response.json()) as { code: string; message: string };
    return [response.status, code, message];
  };
  const onFish = async (): Promise<{ id: string; caption: string | null; revision: number }[]> =>
    (
      await api.graphql<{ fish: { photos: [] } }>(
        'query ($id: ID!) { fish(id: $id) { photos { id caption revision } } }',
        { id: fishId },
      )
    ).fish.photos;
  const filesKept = (): string[] =>
    readdirSync(photosDir, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => entry.name);

  it('keeps a JPEG without its position, its camera and its owner', async () => {
    const sent = await withPosition();
    // Otherwise the check below could not fail.
    const before = await sharp(sent).metadata();
    // 0x8825 points to the position, in either byte order.
    const points = [Buffer.from([0x88, 0x25]), Buffer.from([0x25, 0x88])];
    expect(points.some((tag) => before.exif?.includes(tag))).toBe(true);
    expect(sent.includes('Invented')).toBe(true);
    const photo = await added(sent, {
      query: `kind=fish&of=${fishId}&taken=2026-03-14&caption=${encodeURIComponent('Côté gauche, 4 months')}`,
    });
    for (const path of [photo.path, photo.smallPath]) {
      const response = await api.http(path);
      expect(response.status).toBe(200);
      const bytes = Buffer.from(await response.arrayBuffer());
      const after = await sharp(bytes).metadata();
      expect([after.exif, after.xmp, after.iptc, after.icc]).toEqual(Array(4).fill(undefined));
      expect(bytes.includes('Invented')).toBe(false);
      expect(bytes.includes('Exif')).toBe(false);
    }
    expect((await onFish())[0]?.caption).toBe('Côté gauche, 4 months');
  });

  it('turns a picture upright by its orientation mark', async () => {
    const photo = await added(await withPosition(6));
    expect([photo.width, photo.height]).toEqual([40, 60]);
    const bytes = Buffer.from(await (await api.http(photo.path)).arrayBuffer());
    const { width, height, orientation } = await sharp(bytes).metadata();
    expect([width, height, orientation]).toEqual([40, 60, undefined]);
  });

  it('takes PNG and WebP, and makes large ones fit', async () => {
    const png = await added(await picture().png().toBuffer());
    const webp = await added(await picture(4000, 1000).webp().toBuffer());
    expect([png.mediaType, webp.mediaType]).toEqual(['image/png', 'image/webp']);
    expect([webp.width, webp.height]).toEqual([3000, 750]);
    const small = sharp(Buffer.from(await (await api.http(webp.smallPath)).arrayBuffer()));
    expect((await small.metadata()).width).toBe(480);
  });

  it('keeps of a moving picture its first, and of none the position in XMP', async () => {
    const frames = Buffer.concat(
      await Promise.all(
        [200, 90].map((red) => picture(60, 40, red).removeAlpha().raw().toBuffer()),
      ),
    );
    const moving = await sharp(frames, {
      raw: { width: 60, height: 80, channels: 3, pageHeight: 40 },
    })
      .webp({ delay: [100, 100], lossless: true })
      .toBuffer();
    expect((await sharp(moving).metadata()).pages).toBe(2);
    const still = await added(moving);
    expect([still.width, still.height]).toEqual([60, 40]);
    const kept = Buffer.from(await (await api.http(still.path)).arrayBuffer());
    expect((await sharp(kept).metadata()).pages ?? 1).toBe(1);
    expect((await sharp(kept).stats()).channels[0]?.mean).toBeGreaterThan(150);

    const xmp = `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description xmlns:exif="http://ns.adobe.com/exif/1.0/" exif:GPSLatitude="51,30.0N"/></rdf:RDF></x:xmpmeta>`;
    for (const format of ['jpeg', 'png', 'webp'] as const) {
      const sent = await picture().toFormat(format).withXmp(xmp).toBuffer();
      expect((await sharp(sent).metadata()).xmp?.includes('GPSLatitude'), format).toBe(true);
      const photo = await added(sent);
      for (const path of [photo.path, photo.smallPath]) {
        const bytes = Buffer.from(await (await api.http(path)).arrayBuffer());
        expect((await sharp(bytes).metadata()).xmp, format).toBeUndefined();
        expect(bytes.includes('GPSLatitude'), format).toBe(false);
      }
    }
  });

  it.each([
    ['text', Buffer.from('GPS is not a picture'), /JPEG, PNG or WebP/],
    ['a drawing in SVG', Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'), /JPEG, PNG/],
    ['a GIF', Buffer.from('GIF89a\x01\x00\x01\x00'), /JPEG, PNG or WebP/],
    ['nothing', Buffer.alloc(0), /JPEG, PNG or WebP/],
    ['HEIC', Buffer.from('\0\0\0\x18ftypheic\0\0\0\0', 'latin1'), /Most compatible/],
    ['a JPEG in name only', Buffer.from([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3]), /damaged/],
  ])('refuses %s, whatever it is called', async (_, bytes, words) => {
    const kept = filesKept().length;
    const [status, code, message] = await refused(
      await put(bytes, { headers: { 'content-type': 'image/jpeg' } }),
    );
    expect([status, code]).toEqual([415, 'PHOTO_INVALID']);
    expect(message).toMatch(words);
    expect(filesKept()).toHaveLength(kept);
  });

  it('refuses a picture cut off in the middle', async () => {
    const whole = await sharp(
      Buffer.from(Array.from({ length: 300 * 300 * 3 }, (_, k) => (k * 7919) % 251)),
      {
        raw: { width: 300, height: 300, channels: 3 },
      },
    )
      .jpeg()
      .toBuffer();
    const [status, , message] = await refused(await put(whole.subarray(0, whole.length / 2)));
    expect(status).toBe(415);
    expect(message).toMatch(/damaged/);
  });

  it('refuses a file that is too large, and a small one that claims to be enormous', async () => {
    const [status, code, message] = await refused(await put(Buffer.alloc(25 * 1024 * 1024 + 1)));
    expect([status, code]).toEqual([413, 'PHOTO_TOO_LARGE']);
    expect(message).toContain('25 MB');
    const bomb = await picture(12_000, 11_000).png({ compressionLevel: 9 }).toBuffer();
    expect(bomb.length).toBeLessThan(1024 * 1024);
    const [bombStatus, bombCode, words] = await refused(await put(bomb));
    expect([bombStatus, bombCode]).toEqual([413, 'PHOTO_TOO_LARGE']);
    expect(words).toContain('12000 by 11000');
  });

  it('refuses other sites, the signed out, unknown subjects and bad addresses', async () => {
    const bytes = await picture().jpeg().toBuffer();
    for (const headers of [
      { 'sec-fetch-site': 'cross-site' },
      { 'sec-fetch-site': 'same-site' },
      { origin: 'https://elsewhere.example' },
    ])
      expect((await refused(await put(bytes, { headers }))).slice(0, 2)).toEqual([
        403,
        'ORIGIN_REFUSED',
      ]);
    await added(bytes, { headers: { origin: api.url } });
    const of = randomUUID();
    const bad = [`kind=fish&of=${of}`, `kind=fish&of=x`, `kind=herd&of=${of}`];
    for (const query of [...bad, `kind=fish&of=${fishId}&taken=2026-02-30`])
      expect((await refused(await put(bytes, { query })))[1], query).toBe('VALIDATION');
    const stranger = await fetch(`${api.url}/photos/${randomUUID()}?kind=fish&of=${fishId}`, {
      method: 'PUT',
      body: new Uint8Array(bytes),
    });
    expect(stranger.status).toBe(401);
    const first = (await onFish())[0];
    expect((await fetch(`${api.url}/photos/${first?.id}`)).status).toBe(401);
    expect((await api.http(`/photos/${randomUUID()}`)).status).toBe(404);
    expect((await api.http('/photos/..%2f..%2fetc')).status).toBe(404);
  });

  it('the same upload twice is one record, the same picture twice one file', async () => {
    const bytes = await picture(50, 50, 90).jpeg().toBuffer();
    const id = randomUUID();
    const before = (await onFish()).length;
    const both = await Promise.all([added(bytes, { id }), added(bytes, { id })]);
    expect(both[0]).toEqual(both[1]);
    const again = await added(bytes);
    expect(again.sha256).toBe(both[0]?.sha256);
    expect(await onFish()).toHaveLength(before + 2);
    expect(filesKept().filter((name) => name === again.sha256)).toHaveLength(1);
    expect(filesKept().filter((name) => /^[\da-f]{8}-/.test(name))).toEqual([]);
  });

  it('is served with a long cache, an ETag and its own type, and is what its hash says', async () => {
    const photo = await added(await picture(30, 30, 10).png().toBuffer());
    const response = await api.http(photo.path);
    expect(response.headers.get('content-type')).toBe('image/png');
    expect(response.headers.get('cache-control')).toContain('max-age=31536000');
    expect(response.headers.get('x-content-type-options')).toBe('nosniff');
    const hash = createHash('sha256').update(Buffer.from(await response.arrayBuffer()));
    expect(hash.digest('hex')).toBe(photo.sha256);
    const etag = response.headers.get('etag') ?? '';
    const again = await api.http(photo.path, { headers: { 'if-none-match': etag } });
    expect(again.status).toBe(304);
    // A page asked for in the address bar is the picture, not the viewer.
    const inBar = await api.http(photo.path, { headers: { accept: 'text/html' } });
    expect(inBar.headers.get('content-type')).toBe('image/png');
  });

  it('is captioned, and no longer served once withdrawn', async () => {
    const photo = await added(await picture(31, 31).jpeg().toBuffer());
    const caption = `mutation ($input: CaptionPhotoInput!) { captionPhoto(input: $input) { caption takenOn revision } }`;
    const { captionPhoto } = await api.graphql<{
      captionPhoto: { caption: string; takenOn: string; revision: number };
    }>(caption, {
      input: { id: photo.id, revision: 1, caption: ' Flaring ', takenOn: '2026-03-01' },
    });
    expect(captionPhoto).toEqual({ caption: 'Flaring', takenOn: '2026-03-01', revision: 2 });
    const stale = await api.send(caption, { input: { id: photo.id, revision: 1, caption: 'x' } });
    expect(stale.errors?.[0]?.extensions.code).toBe('CONFLICT_REVISION');
    const before = (await onFish()).length;
    await api.graphql('mutation ($input: WithdrawInput!) { withdrawPhoto(input: $input) { id } }', {
      input: { id: photo.id, reason: 'Wrong fish' },
    });
    for (const path of [photo.path, photo.smallPath])
      expect((await api.http(path)).status).toBe(404);
    expect(await onFish()).toHaveLength(before - 1);
  });

  it('beside a tag is the newest that stands, small, with what was last seen; in as many statements for many as for one', async () => {
    const records = newRecords(api);
    const fish = (tag: string) => records.createFish({ tag, sex: 'MALE', hatchDate: '2025-01-01' });
    // Its age is said with each look.
    const bought = await records.createFish({ tag: 'P-3', sex: 'MALE' });
    const ids = [await fish('P-2'), bought, await fish('P-4')];
    const query = (id: string, taken: string) => ({ query: `kind=fish&of=${id}&taken=${taken}` });
    const older = await added(
      await picture(600, 400, 11).jpeg().toBuffer(),
      query(ids[0]!, '2025-06-01'),
    );
    const newest = await added(
      await picture(600, 400, 12).jpeg().toBuffer(),
      query(ids[0]!, '2025-07-01'),
    );
    const look = { locusId: 'bl', fishId: ids[1]! };
    await records.recordPhenotype({ ...look, phenotype: 'royal', seenOn: '2025-06-01' });
    await records.recordPhenotype({ ...look, phenotype: 'steel', seenOn: '2025-07-01' });
    // Too young to tell: kept, and not drawn.
    await records.recordPhenotype({
      ...look,
      phenotype: 'turquoise',
      seenOn: '2025-07-02',
      ageDays: 3,
    });
    const shown = async (fishIds: string[]) =>
      (
        await api.graphql<{ fishPictures: object[] }>(
          'query ($fishIds: [ID!]!) { fishPictures(fishIds: $fishIds) { fishId photo { id tinyPath } looks { locusId phenotype name } } }',
          { fishIds },
        )
      ).fishPictures;
    const steel = { locusId: 'bl', phenotype: 'steel', name: 'steel blue' };
    const tinyPath = `/photos/${newest.id}/tiny?is=${newest.sha256.slice(0, 16)}`;
    expect(await shown([...ids, ids[0]!, 'no id', randomUUID()])).toEqual([
      { fishId: ids[0], photo: { id: newest.id, tinyPath }, looks: [] },
      { fishId: ids[1], photo: null, looks: [steel] },
    ]);
    const statements = await listenToStatements(api);
    const asking = (fishIds: string[]) =>
      statements.of(
        `{ fishPictures(fishIds: ${JSON.stringify(fishIds)}) { photo { id } looks { name } } }`,
      );
    const [one, three] = [await asking([ids[0]!]), await asking(ids)];
    statements.stop();
    expect(three.length).toBe(one.length);

    const response = await api.http(tinyPath);
    expect(response.headers.get('cache-control')).toContain('immutable');
    const kept = filesKept().length;
    const tiny = await sharp(Buffer.from(await response.arrayBuffer())).metadata();
    expect([tiny.format, tiny.width, tiny.height]).toEqual(['webp', 144, 96]);
    // Made once.
    expect((await api.http(tinyPath)).status).toBe(200);
    expect(filesKept()).toHaveLength(kept);
    await api.graphql('mutation ($input: WithdrawInput!) { withdrawPhoto(input: $input) { id } }', {
      input: { id: newest.id, reason: 'Wrong fish' },
    });
    expect((await api.http(tinyPath)).status).toBe(404);
    expect(await shown(ids)).toMatchObject([{ photo: { id: older.id } }, { photo: null }]);
  });

  it('of an event stands on the page of its spawn', async () => {
    const spawnId = await newRecords(api).createSpawn({ tag: 'P-S1' });
    const { recordSpawnEvent } = await api.graphql<{
      recordSpawnEvent: { events: { id: string }[] };
    }>(creation('recordSpawnEvent', 'events { id }'), {
      input: { spawnId, kind: 'NEST', at: '2026-03-01T10:00:00Z' },
    });
    const of = recordSpawnEvent.events[0]?.id;
    const photo = await added(await picture(32, 20).jpeg().toBuffer(), {
      query: `kind=spawn_event&of=${of}`,
    });
    const { spawn } = await api.graphql<{ spawn: { photos: { id: string; subjectId: string }[] } }>(
      'query ($id: ID!) { spawn(id: $id) { photos { id subjectId } } }',
      { id: spawnId },
    );
    expect(spawn.photos).toEqual([{ id: photo.id, subjectId: of }]);
  });

  it('a file without a record harms nothing: sending again makes the record', async () => {
    const bytes = await picture(33, 33, 120).jpeg().toBuffer();
    const files = api.served.app.get(PhotoFiles);
    const prepared = await preparePhoto(bytes);
    await files.keep(prepared);
    expect(existsSync(files.pathOf(prepared.sha256, 'full'))).toBe(true);
    const before = (await onFish()).length;
    const photo = await added(bytes);
    expect(photo.sha256).toBe(prepared.sha256);
    expect(await onFish()).toHaveLength(before + 1);
    expect((await api.http(photo.path)).status).toBe(200);
  });
});
