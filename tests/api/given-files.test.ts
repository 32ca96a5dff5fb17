import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writePairingCode } from '../../apps/api/src/sharing/partners/pairing-code.js';
import { daysAgo, today } from '../clock.js';
import { newRecords } from '../new-records.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';
import { lineFile, otherKeys, partsOfZip, sent } from './line-files.js';
import { grant, pair } from './paired-installs.js';

const PARTS = ['scores', 'photos', 'notes', 'water', 'place', 'prices'] as const;
type Part = (typeof PARTS)[number];
type Group = Record<string, unknown>[];

/** By what a part of the line is known in its file. */
const TOLD: Readonly<Record<Part, (records: Record<string, Group>, text: string) => boolean>> = {
  scores: ({ scores }) => scores!.length > 0,
  photos: ({ photos }) => photos!.length > 0,
  notes: (_, text) => text.includes('For nobody else'),
  water: ({ waterReadings }) => waterReadings!.length > 0,
  prices: ({ fishDeals }) => fishDeals!.length > 0,
  place: ({ fish }) => fish!.some(({ swimsWithId }) => swimsWithId !== null),
};

describe('a line’s file that is given by hand', () => {
  let api: RunningApi;
  let line = '';
  let partner = '';

  beforeAll(async () => {
    api = await startApi();
    const make = newRecords(api);
    line = await make.createLine({ code: 'R', name: 'Red' });
    const old = await make.createLine({ code: 'OLD', name: 'Older' });
    const sire = await make.createFish({
      ...{ tag: 'S', sex: 'MALE', lineId: old, note: 'For nobody else: S' },
      ...{ name: 'Called S', origin: 'Bought as S' },
    });
    const dam = await make.createFish({ tag: 'D', sex: 'FEMALE', lineId: line });
    const spawnId = await make.createSpawn({
      ...{ tag: 'R-1', lineId: line, sireId: sire, damId: dam, note: 'For nobody else' },
      spawnedOn: daysAgo(60),
    });
    const [young] = await make.addFishToSpawn({ spawnId, number: 1, sex: 'MALE' });
    const traitId = await make.createTrait({
      ...{ key: 'length', name: 'Length', kind: 'MEASURED', unit: 'mm' },
    });
    await make.recordScores({
      ...{ fishId: young ?? '', scoredOn: today() },
      scores: [{ traitId, value: 41 }],
    });
    await api.graphql(
      'mutation ($input: RecordWaterInput!) { recordWater(input: $input) { id } }',
      { input: { spawnId, takenAt: `${daysAgo(9)}T08:00:00Z`, figures: { pH: 7 } } },
    );
    await api.graphql(
      'mutation ($input: RecordFishDealInput!) { recordFishDeal(input: $input) { id } }',
      { input: { fishId: young, kind: 'ASKED', onDate: today(), amount: 900, currency: 'EUR' } },
    );
    const image = await sharp({
      create: { width: 60, height: 40, channels: 3, background: '#338811' },
    })
      .png()
      .toBuffer();
    const added = await api.http(`/photos/${crypto.randomUUID()}?kind=fish&of=${young}`, {
      ...{ method: 'PUT', body: new Uint8Array(image), headers: { origin: api.url } },
    });
    expect(added.status).toBe(200);
    const { invitePerson } = await api.graphql<{
      invitePerson: { account: { person: { id: string } } };
    }>(
      'mutation { invitePerson(input: { name: "Runa", role: PARTNER }) { account { person { id } } } }',
    );
    partner = invitePerson.account.person.id;
  });
  afterAll(() => api.close());

  const given = async (asked: string) => {
    const parts = await partsOfZip(await lineFile(api, line, asked));
    const text = parts.get('line.json')!.toString('utf8');
    const { records, installs } = JSON.parse(text) as {
      records: Record<string, Group>;
      installs: { id: string }[];
    };
    const manifest = JSON.parse(parts.get('manifest.json')!.toString('utf8')) as {
      madeFor: string | null;
    };
    return { parts, text, records, installs, manifest, page: String(parts.get('read-me.html')) };
  };
  const told = ({ records, text }: { records: Record<string, Group>; text: string }): Part[] =>
    PARTS.filter((part) => TOLD[part](records, text));

  it('for anyone holds all of it, or the parts that were chosen one by one', async () => {
    const withoutPrices = PARTS.filter((part) => part !== 'prices');
    expect(told(await given('?photos=yes'))).toEqual(withoutPrices);
    expect(told(await given('?photos=yes&prices=yes'))).toEqual(PARTS);
    expect(told(await given('?parts='))).toEqual([]);
    for (const part of PARTS) {
      const file = await given(`?parts=${part}`);
      expect([part, told(file)]).toEqual([part, [part]]);
      expect([...file.parts.keys()].some((name) => name.startsWith('photos/'))).toBe(
        part === 'photos',
      );
      if (part !== 'notes') expect(file.page).not.toContain('For nobody else');
    }
  });

  it('names ancestors outside of the line where that is wished, with no more than the parts chosen', async () => {
    const tags = ({ records }: { records: Record<string, Group> }) =>
      records['fish']!.map(({ tag }) => String(tag)).sort();
    expect(tags(await given('?parts=')).filter((tag) => tag.startsWith('not shown'))).toHaveLength(
      1,
    );
    const named = await given('?parts=&ancestors=named');
    expect(tags(named)).toContain('S');
    expect(told(named)).toEqual([]);
    expect((await given('?parts=notes&ancestors=named')).text).toContain('For nobody else: S');
  });

  it('for a partner holds what is granted to them, and for nobody what is not', async () => {
    const refused = await api.http(`/export/line/${line}.zip?for=${partner}`);
    expect(refused.status).toBe(400);
    expect(await refused.text()).toMatch(/Nothing of this line is shared with Runa/);
    const nothing = Object.fromEntries(PARTS.map((part) => [part, false]));
    for (const part of PARTS) {
      await grant(api, partner, line, { level: 'LOOK', ...nothing, [part]: true });
      expect([part, told(await given(`?for=${partner}`))]).toEqual([part, [part]]);
    }
    await grant(api, partner, line, { level: 'LOOK', ancestors: true });
    const named = await given(`?for=${partner}`);
    expect(named.records['fish']!.map(({ tag }) => tag)).toContain('S');
    expect(named.text).toContain('For nobody else');
    // Of an ancestor outside of the line the name was promised, and nothing else of its record.
    for (const kept of ['For nobody else: S', 'Called S', 'Bought as S'])
      expect([kept, named.text.includes(kept)]).toEqual([kept, false]);
    await grant(api, partner, line, { level: 'LOOK', ...nothing });
    for (const id of [crypto.randomUUID(), 'nobody'])
      expect((await api.http(`/export/line/${line}.zip?for=${id}`)).status).toBe(404);
    expect((await given(`?for=${partner}`)).manifest.madeFor).toBeNull();
  });

  it('leaves nothing behind of those it was read as', async () => {
    const records = await recordsOf(api);
    const before = await records.query('SELECT count(*) FROM person');
    await given('?parts=scores');
    expect(await records.query('SELECT count(*) FROM person')).toEqual(before);
    expect(await records.query('SELECT count(*)::int AS n FROM line_grant')).toEqual([{ n: 1 }]);
  });

  it('for a partner with an install is taken by no other, and is taken in whole elsewhere otherwise', async () => {
    const keys = await otherKeys();
    const code = writePairingCode({ ...keys, personId: crypto.randomUUID(), name: 'Pelle' });
    const { person } = await pair(api, code);
    await grant(api, person.id, line);
    const file = await given(`?for=${person.id}`);
    expect(file.manifest.madeFor).toBe(keys.install);
    expect(file.installs.map(({ id }) => id)).toContain(keys.install);
    const third = await startApi();
    try {
      const look = 'mutation ($file: ID!) { previewShare(file: $file) { added conflicts } }';
      const bytes = await lineFile(api, line, `?for=${person.id}`);
      const refused = await third.send(look, { file: await sent(third, bytes) });
      expect(refused.errors?.[0]?.message).toMatch(/made for another install/);
      const taken = await third.graphql<{ acceptShare: { added: number; conflicts: number } }>(
        'mutation ($file: ID!) { acceptShare(file: $file) { added conflicts } }',
        { file: await sent(third, await lineFile(api, line, '?parts=scores,water')) },
      );
      expect(taken.acceptShare.conflicts).toBe(0);
      expect(taken.acceptShare.added).toBeGreaterThan(6);
    } finally {
      await third.close();
    }
  });
});
