import { describe, expect, it } from 'vitest';
import type { Entry } from './entry.js';
import { fromVersionOne } from './older-entry.js';

const course = {
  ...{ id: 'e', keeperId: 'k', group: 'g', sequence: 4, madeAt: '2026-11-25T12:00:00Z' },
  ...{ spawnId: 's', subject: 'f', label: 'A-1: Spread 170', attempts: 2 },
};
const values = [{ traitId: 'spread', value: 170 }];

/** As a page of version 1 left it, whose types are gone. */
const older = (more: object, input: object = {}): Entry =>
  ({
    ...course,
    ...{ kind: 'scores', state: 'waiting' },
    ...more,
    input: { fishId: 'f', scoredOn: '2026-11-25', entries: values, ...input },
  }) as unknown as Entry;

describe('an entry kept by version 1', () => {
  it('has its scores under today’s name, and all else as it was', () => {
    expect(fromVersionOne(older({}))).toEqual({
      ...course,
      ...{ kind: 'scores', state: 'waiting' },
      input: { fishId: 'f', scoredOn: '2026-11-25', scores: values },
    });
    const look = older({ kind: 'sheet_look' }, { sheetId: 'h', sheetVersion: 2, faultIds: ['x'] });
    expect(fromVersionOne(look).input).toEqual({
      ...{ fishId: 'f', scoredOn: '2026-11-25', scores: values },
      ...{ sheetId: 'h', sheetVersion: 2, faultIds: ['x'] },
    });
  });

  it('waits again where it was refused for its old form alone', () => {
    const problem = { code: 'BAD_USER_INPUT', message: 'Field "scores" was not provided.' };
    const again = fromVersionOne(older({ state: 'refused', problem }));
    expect(again).toMatchObject({ state: 'waiting', attempts: 0 });
    expect(again.problem).toBeUndefined();
    const day = { code: 'VALIDATION', message: 'no such day yet' };
    expect(fromVersionOne(older({ state: 'refused', problem: day }))).toMatchObject({
      ...{ state: 'refused', attempts: 2, problem: day },
      input: { scores: values },
    });
  });

  it('of another kind, or renewed already, stays as it is', () => {
    const decision = {
      ...course,
      ...{ kind: 'decision', state: 'waiting' },
      input: { id: 'f', disposition: 'KEEPER', on: '2026-11-25', revision: 3 },
    } as const satisfies Entry;
    expect(fromVersionOne(decision)).toBe(decision);
    const renewed = fromVersionOne(older({}));
    expect(fromVersionOne(renewed)).toBe(renewed);
  });
});
