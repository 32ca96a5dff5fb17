import { randomUUID } from 'node:crypto';
import { decimalIn } from '@linewright/pedigree';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  optionalNumber,
  optionalScore,
  requiredDate,
} from '../../apps/viewer/src/components/field-rules.js';
import { sheetFrom } from '../../apps/viewer/src/screens/print/sheet-text.js';
import { readScores } from '../../apps/viewer/src/screens/sorting/score-sheet.js';
import type { ScoredTrait } from '../../apps/viewer/src/screens/sorting/score-sheet.js';
import { readNumber } from '../../apps/api/src/import-and-export/import-columns.js';
import { sheetOf } from '../../apps/api/src/print/print-request.js';
import { daysAgo, today } from '../clock.js';
import { newRecords, type NewRecords } from '../new-records.js';
import { type RunningApi, startApi } from './harness.js';
import { lineJson, sentText } from './line-files.js';

/** Which doors let a value in; all or none of them, when the rule stands in one place. */
type Doors = Readonly<Record<string, boolean>>;
const all = (doors: Doors, open: boolean): Doors =>
  Object.fromEntries(Object.keys(doors).map((door) => [door, open]));

interface SharedFile {
  readonly records: Readonly<Record<string, Record<string, unknown>[]>>;
  readonly versions: Record<string, unknown>;
}

describe('a rule is the same at every door', () => {
  let api: RunningApi;
  let made: NewRecords;
  let lineId: string;
  let brood: string;
  let count = 0;

  beforeAll(async () => {
    api = await startApi();
    made = newRecords(api);
    lineId = await made.createLine({ code: 'R', name: 'Red' });
    brood = await made.createSpawn({ tag: 'B', lineId });
  });
  afterAll(() => api.close());

  const takes = async (mutation: string, type: string, input: object): Promise<boolean> =>
    (
      await api.send(`mutation ($input: ${type}!) { ${mutation}(input: $input) { __typename } }`, {
        input,
      })
    ).errors === undefined;
  const newFish = () => made.createFish({ tag: `F${(count += 1)}`, sex: 'UNSEXED', lineId });

  const takesCsv = async (header: string, cell: string): Promise<boolean> => {
    const text = `tag;line;${header}\nC${(count += 1)};R;${cell}\n`;
    const { errors } = await api.send(
      'mutation ($text: String!) { confirmImport(fileName: "f.csv", text: $text, columns: []) { fish } }',
      { text },
    );
    return errors === undefined;
  };

  /** The line as a partner would send it back, one record of it new and changed. */
  const takesFile = async (
    group: string,
    like: (record: Record<string, unknown>) => boolean,
    change: object,
  ): Promise<boolean> => {
    const file = JSON.parse(await lineJson(api, lineId)) as SharedFile;
    const record = file.records[group]?.find(like);
    expect(record).toBeDefined();
    const id = randomUUID();
    file.records[group]?.push({ ...record, id, ...change });
    file.versions[id] = file.versions[String(record?.['id'])];
    const { errors } = await api.send(
      'mutation ($file: ID!) { acceptShare(file: $file) { applied } }',
      { file: await sentText(api, JSON.stringify(file)) },
    );
    return errors === undefined;
  };

  describe('what a value of a trait may be', () => {
    const traits = {
      step: { kind: 'ORDINAL', minimum: 1, maximum: 10 },
      angle: { kind: 'MEASURED', minimum: 0, maximum: 180 },
      spots: { kind: 'COUNT', minimum: 0, maximum: null },
      double: { kind: 'YES_NO', minimum: null, maximum: null },
    } as const;
    const scored = new Map<string, ScoredTrait>();
    const sheets = new Map<string, string>();

    beforeAll(async () => {
      const fishId = await newFish();
      for (const [name, scale] of Object.entries(traits)) {
        const id = await made.createTrait({ key: name, name, ...scale });
        scored.set(name, { id, name, unit: null, ...scale });
        const content = { lines: [{ traitId: id }], faults: [], deductions: [] };
        sheets.set(name, await made.createScoreSheet({ name, content }));
        const scores = [{ traitId: id, value: 1 }];
        expect(
          await takes('recordScores', 'RecordScoresInput', { fishId, scoredOn: today(), scores }),
        ).toBe(true);
      }
    });

    const correct = async (traitId: string, value: number): Promise<boolean> => {
      const fishId = await newFish();
      const [scoreId] = await newRecords(api).recordScores({
        fishId,
        scoredOn: today(),
        scores: [{ traitId, value: 1 }],
      });
      const input = { scoreId, value, reason: 'slip' };
      return takes('correctScore', 'CorrectScoreInput', input);
    };

    const doorsFor = async (trait: ScoredTrait, text: string): Promise<Doors> => {
      const value = decimalIn(text);
      const form = {
        'a form': optionalScore(trait).safeParse(text).success,
        'the bench': readScores([trait], new Map([[trait.id, text]])).slips.size === 0,
        'a file of fish': await takesCsv(trait.name, text),
      };
      // What is no number cannot be written where numbers are sent.
      if (value === null) return form;
      const entry = { scoredOn: today(), scores: [{ traitId: trait.id, value }] };
      const onSheet = { sheetId: sheets.get(trait.name), sheetVersion: 1, faultIds: [], ...entry };
      return {
        ...form,
        scores: await takes('recordScores', 'RecordScoresInput', {
          ...{ fishId: await newFish(), ...entry },
        }),
        'an entry of a device': await takes('recordScores', 'RecordScoresInput', {
          ...{ fishId: await newFish(), entryId: randomUUID(), ...entry },
        }),
        'a sheet': await takes('scoreOnSheet', 'ScoreOnSheetInput', {
          ...{ id: randomUUID(), fishId: await newFish(), ...onSheet },
        }),
        'a correction': await correct(trait.id, value),
        'a line of a partner': await takesFile('scores', (one) => one['traitId'] === trait.id, {
          value,
        }),
      };
    };

    it.each([
      ['step', '7', true],
      ['step', '7,0', true],
      ['step', ' 10 ', true],
      ['step', '7.5', false],
      ['step', '0', false],
      ['step', '11', false],
      ['step', '0x7', false],
      ['angle', '164,5', true],
      ['angle', '180', true],
      ['angle', '180.5', false],
      ['angle', '-1', false],
      ['angle', '1e999', false],
      ['spots', '12', true],
      ['spots', '1e2', true],
      ['spots', '12.5', false],
      ['double', '0', true],
      ['double', '1', true],
      ['double', '2', false],
      ['double', '0.5', false],
    ])('%s of "%s": %s', async (name, text, good) => {
      const doors = await doorsFor(scored.get(name)!, text);
      expect(doors).toEqual(all(doors, good));
    });
  });

  describe('what the day of something that happened may be', () => {
    const doorsFor = async (day: string): Promise<Doors> => {
      const fishId = await newFish();
      const spawnId = await made.createSpawn({ tag: `S${(count += 1)}` });
      const photo = `kind=fish&of=${fishId}&taken=${day}`;
      const put = await api.http(`/photos/${randomUUID()}?${photo}`, {
        method: 'PUT',
        headers: { 'content-type': 'image/png', origin: api.url },
        body: Buffer.from('no picture'),
      });
      const aboutDay = ((await put.json()) as { message?: string }).message ?? '';
      const fish = { tag: `N${(count += 1)}`, sex: 'UNSEXED', hatchDate: day };
      const counted = { stage: 'EGGS', number: 5, countedOn: day };
      const lost = { kind: 'DIED', on: day, number: 1, reason: 'fungus', heritable: false };
      return {
        'a new fish': await takes('createFish', 'CreateFishInput', fish),
        'a correction of a fish': await takes('correctFish', 'CorrectFishInput', {
          ...{ id: fishId, revision: 1, hatchDate: day },
        }),
        'a decision': await takes('decideFish', 'DecideFishInput', {
          ...{ id: await newFish(), disposition: 'HOLD', on: day },
        }),
        'a new spawn': await takes('createSpawn', 'CreateSpawnInput', {
          ...{ tag: `S${(count += 1)}`, spawnedOn: day },
        }),
        'a count': await takes('recordSpawnCount', 'SpawnCountInput', { spawnId, ...counted }),
        'a loss': await takes('recordSpawnLoss', 'SpawnLossInput', { spawnId, ...lost }),
        'a look that was seen': await takes('recordPhenotype', 'RecordPhenotypeInput', {
          ...{ fishId: await newFish(), locusId: 'al', phenotype: 'albino', seenOn: day },
        }),
        // It is no picture, which is told only when the day is right.
        'a picture': !aboutDay.includes(day),
        'a reading of the water': await takes('recordWater', 'RecordWaterInput', {
          ...{ spawnId, takenAt: `${day}T00:00:00Z`, figures: { pH: 7 } },
        }),
        'a file of fish': await takesCsv('hatch_date', day),
        'a line of a partner': await takesFile('spawns', (one) => one['id'] === brood, {
          ...{ tag: `P${(count += 1)}`, spawnedOn: day },
        }),
      };
    };

    it.each([
      ['today', today(), true],
      ['the day after tomorrow', daysAgo(-2), false],
      ['a day of a year without its first digits', '0026-03-14', false],
      ['the last day of the nineteenth century', '1899-12-31', false],
      ['a leap day', '2024-02-29', true],
      ['a day that the calendar does not have', '2023-02-29', false],
    ])('%s', async (_, day, good) => {
      const doors = await doorsFor(day);
      expect(doors).toEqual(all(doors, good));
    });

    it.each([
      ['2024-02-29', true],
      ['2023-02-29', false],
      ['14.3.2026', false],
    ])('a form reads the calendar as the API does: %s', (day, good) => {
      expect(requiredDate.safeParse(day).success).toBe(good);
    });
  });

  it.each([
    ['7,5', 7.5],
    [' 7.5 ', 7.5],
    ['.5', 0.5],
    ['1e1', 10],
    ['0x1F', null],
    ['1,000,5', null],
    ['12 mm', null],
    ['Infinity', null],
  ])('a decimal is read alike everywhere: "%s"', (text, value) => {
    const measures = { rows: '1', columns: '1', labelWidth: '60', labelHeight: '30' };
    const margins = { marginTop: text, marginLeft: '0', gapX: '0', gapY: '0' };
    const typed = { grid: 'own', page: 'A4', ...measures, ...margins };
    const printed = sheetFrom(typed, 'jar-labels');
    const asked = () => sheetOf(typed, '').marginTop;
    expect(decimalIn(text)).toBe(value);
    expect(readNumber(text, ';')).toBe(value);
    expect(optionalNumber.safeParse(text).data ?? null).toBe(value);
    expect(typeof printed === 'string' ? null : printed.marginTop).toBe(value);
    if (value === null) expect(asked).toThrow('not a number');
    else expect(asked()).toBe(value);
  });
});
