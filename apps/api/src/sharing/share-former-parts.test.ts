import { describe, expect, it } from 'vitest';
import { kindOfGroup } from './share-fields.js';
import { cutApart, forEachPart, keptVersions } from './share-former-parts.js';

const fish = kindOfGroup('fish');
const stamp = { one: 1 };

describe('parts that were one', () => {
  it('are told of each that came of them, and of no other', () => {
    expect(forEachPart(fish, { disposition: 7, note: 8 })).toEqual({
      ...{ disposition: 7, dispositionReason: 7, swimsWithId: 7, note: 8 },
    });
  });

  it('are cut apart with their values', () => {
    const cut = cutApart(
      fish,
      { disposition: [{ values: ['died', '2026-01-02', 'old', null] }], note: [{ values: ['x'] }] },
      ({ values }) => values,
      (_, values) => ({ values: [...values] as (string | null)[] }),
    );
    expect(cut).toEqual({
      disposition: [{ values: ['died', '2026-01-02'] }],
      dispositionReason: [{ values: ['old'] }],
      swimsWithId: [{ values: [null] }],
      note: [{ values: ['x'] }],
    });
  });

  it('stay as they are where they were cut already', () => {
    const others = { disposition: [{ text: '["died","2026-01-02"]', stamp }] };
    expect(keptVersions(fish, { all: stamp, others })).toEqual({ all: stamp, others });
    const former = { disposition: [{ text: '["died","2026-01-02","old",null]', stamp }] };
    expect(keptVersions(fish, { all: stamp, others: former }).others).toEqual({
      disposition: [{ text: '["died","2026-01-02"]', stamp }],
      dispositionReason: [{ text: '["old"]', stamp }],
      swimsWithId: [{ text: '[null]', stamp }],
    });
  });
});
