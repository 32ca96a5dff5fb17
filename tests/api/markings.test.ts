import { randomUUID } from 'node:crypto';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newRecords } from '../new-records.js';
import { type RunningApi, startApi } from './harness.js';

const SCORE = `mutation ($input: ScoreFromPictureInput!) { scoreFromPicture(input: $input) {
  id value scoredOn ageDays scorer trait { id } fish { id } marking { photoId kind heads flat points { x y } scale { millimetres } } } }`;
const CENTRE = { x: 300, y: 200 };
const at = (angle: number, reach = 150) => ({
  x: CENTRE.x + reach * Math.cos((angle * Math.PI) / 180),
  y: CENTRE.y + reach * Math.sin((angle * Math.PI) / 180),
});

/** A drawn fan of 140 degrees on a white ground, its base in the middle; the left half of the ground is red. */
const fan = (turned = 0) => {
  const ends = [at(turned - 70), at(turned + 70)].map(({ x, y }) => `${x} ${y}`);
  return sharp(
    Buffer.from(
      `<svg xmlns="http://www.w3.org/2000/svg" width="600" height="400"><rect width="600" height="400" fill="#fff"/><rect width="300" height="400" fill="#c01818"/><path d="M${CENTRE.x} ${CENTRE.y}L${ends.join('L')}Z" fill="#2040b0"/></svg>`,
    ),
  );
};

/** The fan's points as they are found in a kept picture: its base and the corners of the blue that lie farthest from it. */
const tipsIn = async (bytes: Buffer) => {
  const { data, info } = await sharp(bytes)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const blue: { x: number; y: number }[] = [];
  for (let y = 0; y < info.height; y++)
    for (let x = 0; x < info.width; x++) {
      const k = 3 * (y * info.width + x);
      if (data[k + 2]! > 120 && data[k]! < 100) blue.push({ x: x + 0.5, y: y + 0.5 });
    }
  return { blue, width: info.width, height: info.height };
};

interface Scored {
  scoreFromPicture: {
    id: string;
    value: number;
    scoredOn: string;
    scorer: string;
    marking: object;
  };
}

describe('scores measured on pictures', () => {
  let api: RunningApi;
  let fishId = '';
  let traits: Record<'spread' | 'length' | 'count' | 'colour' | 'grade', string>;

  beforeAll(async () => {
    api = await startApi();
    const records = newRecords(api);
    fishId = await records.createFish({ tag: 'M-1', sex: 'MALE', hatchDate: '2026-01-01' });
    const trait = (
      key: string,
      unit: string | null,
      kind: 'MEASURED' | 'COUNT' | 'ORDINAL' = 'MEASURED',
    ) => records.createTrait({ key, name: key, kind, unit, minimum: 0, maximum: 1000 });
    traits = {
      spread: await trait('spread', '°'),
      length: await trait('length', 'mm'),
      count: await trait('rays', null, 'COUNT'),
      colour: await trait('red', '%'),
      grade: await records.createTrait({
        key: 'g',
        name: 'Form',
        kind: 'ORDINAL',
        minimum: 1,
        maximum: 10,
      }),
    };
  });
  afterAll(() => api.close());

  const kept = async (bytes: Buffer, query = `kind=fish&of=${fishId}&taken=2026-04-23`) => {
    const response = await api.http(`/photos/${randomUUID()}?${query}`, {
      method: 'PUT',
      body: new Uint8Array(bytes),
      headers: { 'content-type': 'application/octet-stream' },
    });
    return (await response.json()) as { id: string; path: string; width: number; height: number };
  };
  const send = (photoId: string, traitId: string, marking: object, more: object = {}) =>
    api.send<Scored>(SCORE, {
      input: { photoId, traitId, marking: { flat: true, ...marking }, ...more },
    });
  const scored = async (...given: Parameters<typeof send>) => {
    const { data, errors } = await send(...given);
    expect(errors).toBeUndefined();
    return data!.scoreFromPicture;
  };
  const refusal = async (...given: Parameters<typeof send>) => {
    const [error] = (await send(...given)).errors ?? [];
    return `${error?.extensions.code}: ${error?.message} ${JSON.stringify(error?.extensions)}`;
  };

  it('finds the spread of a drawn fan, also in a picture that its camera turned', async () => {
    for (const orientation of [1, 6]) {
      const photo = await kept(
        await fan().jpeg({ quality: 100 }).withMetadata({ orientation }).toBuffer(),
      );
      const bytes = Buffer.from(await (await api.http(photo.path)).arrayBuffer());
      const { blue, width, height } = await tipsIn(bytes);
      expect([photo.width, photo.height]).toEqual(orientation === 1 ? [600, 400] : [400, 600]);
      const base = { x: width / 2, y: height / 2 };
      // The tail points to the right, or downwards once turned: the base is the corner next to the middle.
      const along = ({ x, y }: { x: number; y: number }) => (orientation === 1 ? y : -x);
      const sorted = [...blue].sort((a, b) => along(a) - along(b));
      const marking = { kind: 'SPREAD', heads: 'LEFT', points: [base, sorted[0], sorted.at(-1)] };
      const score = await scored(photo.id, traits.spread, marking);
      expect(Math.abs(score.value - 140)).toBeLessThan(1.5);
      expect(score).toMatchObject({
        ...{ scoredOn: '2026-04-23', ageDays: 112, fish: { id: fishId } },
        marking: {
          photoId: photo.id,
          kind: 'SPREAD',
          heads: 'LEFT',
          flat: true,
          points: marking.points,
        },
      });
    }
  });

  it('tells a length, a count and a share of colour in the units of their traits', async () => {
    const photo = await kept(await fan().png().toBuffer());
    const scale = { from: { x: 0, y: 0 }, to: { x: 200, y: 0 }, millimetres: 50 };
    const length = { kind: 'LENGTH', scale, points: [CENTRE, at(0, 120)] };
    expect((await scored(photo.id, traits.length, length)).value).toBe(30);
    const count = { kind: 'COUNT', points: [CENTRE, at(10), at(20)] };
    expect((await scored(photo.id, traits.count, count)).value).toBe(3);
    const points = [
      [0, 0],
      [600, 0],
      [600, 400],
      [0, 400],
    ].map(([x, y]) => ({ x, y }));
    const red = { kind: 'COLOUR', points, colour: { at: { x: 50, y: 50 }, tolerance: 25 } };
    expect(Math.abs((await scored(photo.id, traits.colour, red)).value - 50)).toBeLessThan(1);
  });

  it('refuses bad markings, and traits of another unit, and says what to do', async () => {
    const photo = await kept(await fan().png().toBuffer());
    const spread = { kind: 'SPREAD', heads: 'LEFT', points: [CENTRE, at(-70), at(70)] };
    const scale = { from: CENTRE, to: CENTRE, millimetres: 50 };
    const length = { kind: 'LENGTH', points: [CENTRE, at(0)] };
    expect(await refusal(photo.id, traits.grade, spread)).toMatch(/VALIDATION.*not measured in °/);
    expect(
      await refusal(photo.id, traits.spread, { ...spread, points: [CENTRE, at(20), at(20, 90)] }),
    ).toMatch(/one on the other/);
    expect(await refusal(photo.id, traits.spread, { ...spread, points: [CENTRE] })).toMatch(
      /1 of the 3/,
    );
    expect(
      await refusal(photo.id, traits.spread, { ...spread, points: [CENTRE, at(0, 900), at(70)] }),
    ).toMatch(/600 by 400/);
    expect(await refusal(photo.id, traits.length, length)).toMatch(/MARKING_NO_SCALE/);
    expect(await refusal(photo.id, traits.length, { ...length, scale })).toMatch(
      /MARKING_NO_SCALE/,
    );
    expect(
      await refusal(photo.id, traits.length, {
        ...length,
        scale: { ...scale, to: at(0), millimetres: 0 },
      }),
    ).toMatch(/MARKING_NO_SCALE/);
    expect(await refusal(randomUUID(), traits.spread, spread)).toMatch(/NOT_FOUND/);
    const undated = await kept(await fan().png().toBuffer(), `kind=fish&of=${fishId}`);
    expect(await refusal(undated.id, traits.spread, spread)).toMatch(/give it its day first/);
    const tiny = await kept(
      await sharp({ create: { width: 4, height: 3, channels: 3, background: '#fff' } })
        .png()
        .toBuffer(),
    );
    expect(
      await refusal(tiny.id, traits.spread, {
        ...spread,
        points: [
          { x: 1, y: 1 },
          { x: 4, y: 0 },
          { x: 4, y: 3 },
        ],
      }),
    ).toMatch(/further out/);
    const spawn = await newRecords(api).createSpawn({ tag: 'M-S' });
    const ofSpawn = await kept(
      await fan().png().toBuffer(),
      `kind=spawn&of=${spawn}&taken=2026-04-23`,
    );
    expect(await refusal(ofSpawn.id, traits.spread, spread)).toMatch(/not of one fish/);
  });

  it('stand with the picture until withdrawn, and tell how far two markings lie apart', async () => {
    const trait = await newRecords(api).createTrait({
      key: 's2',
      name: 'Spread 2',
      kind: 'MEASURED',
      unit: '°',
    });
    const error = async () =>
      (
        await api.graphql<{
          markingError: {
            deviation: number;
            pictures: number;
            markings: number;
            byTwoPeople: number;
          } | null;
        }>(
          'query ($traitId: ID!) { markingError(traitId: $traitId) { deviation pictures markings byTwoPeople } }',
          { traitId: trait },
        )
      ).markingError;
    const photo = await kept(await fan().png().toBuffer());
    const marked = (half: number, scorer: string) =>
      scored(
        photo.id,
        trait,
        { kind: 'SPREAD', heads: 'LEFT', points: [CENTRE, at(-half), at(half)] },
        { scorer },
      );
    const first = await marked(70, 'Ann');
    expect(await error()).toBeNull();
    await marked(72, 'Ben');
    const found = await error();
    expect(found).toMatchObject({ pictures: 1, markings: 2, byTwoPeople: 1 });
    expect(found!.deviation).toBeCloseTo(4 / Math.SQRT2, 6);
    const onPhoto = async () =>
      (
        await api.graphql<{ fish: { photos: { id: string; markings: { scorer: string }[] }[] } }>(
          'query ($id: ID!) { fish(id: $id) { photos { id markings { scorer } } } }',
          { id: fishId },
        )
      ).fish.photos.find(({ id }) => id === photo.id)!.markings;
    expect(await onPhoto()).toEqual([{ scorer: 'Ben' }, { scorer: 'Ann' }]);
    await api.graphql('mutation ($input: WithdrawInput!) { withdrawScore(input: $input) { id } }', {
      input: { id: first.id, reason: 'Marked the wrong ray' },
    });
    expect(await onPhoto()).toEqual([{ scorer: 'Ben' }]);
    expect(await error()).toBeNull();
  });
});
