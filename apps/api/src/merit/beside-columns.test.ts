import { describe, expect, it } from 'vitest';
import type { LookRow } from '../stock/merit-rows.js';
import { besideColumns, type BesideTrait } from './beside-columns.js';
import { levelsOf } from './level-column.js';

const look = (fishId: string, scoredOn: string, value = 0): LookRow => ({
  ...{ id: `${fishId} ${scoredOn}`, fishId, value, scoredOn, ageDays: null },
  ...{ scorer: '', version: 1, swimsWithId: null, recordedAt: 0 },
});
const rows = ['a', 'b', 'c', 'd'].map((fish) => look(fish, '2026-03-10'));
const broods = (of: string) => levelsOf('brood', [...of]);
const trait = (kind: BesideTrait['kind'], looks: LookRow[], name = 'Feed'): BesideTrait => ({
  ...{ id: 't', name, kind, looks },
});

describe('an own trait that is corrected for', () => {
  it('is taken level by level, from the look nearest in time; fish without a score are a level', () => {
    const feed = trait('ordinal', [
      look('a', '2026-01-01', 1),
      look('a', '2026-03-12', 2),
      look('b', '2026-03-10', 1),
      look('d', '2026-03-01', 2),
    ]);
    const { fixed, numbers, noted } = besideColumns(rows, [feed], broods('xxyy'));
    expect(fixed[0]).toMatchObject({ name: 'Feed', levels: ['1', '2', 'not scored'] });
    expect([...fixed[0]!.codes]).toEqual([1, 0, 2, 1]);
    expect(numbers).toEqual([]);
    expect(noted[0]).toMatchObject({ fitted: true, levels: 3, looksWithout: 1, whyNot: null });
  });

  it('is taken as a number from its mean, which stands for fish without a score', () => {
    const depth = trait('measured', [look('a', '2026-03-10', 10), look('b', '2026-03-10', 20)]);
    const { fixed, numbers, noted } = besideColumns(rows, [depth], broods('xxyy'));
    expect(fixed).toEqual([]);
    expect([...numbers[0]!.values]).toEqual([-5, 5, 0, 0]);
    expect(noted[0]).toMatchObject({ fitted: true, levels: 0, looksWithout: 2 });
  });

  it('is left out where it says nothing, and says why', () => {
    const all = (value: (k: number) => number): LookRow[] =>
      rows.map(({ fishId }, k) => look(fishId, '2026-03-10', value(k)));
    const whyNot = (one: BesideTrait): string | null => {
      const { fixed, numbers, noted } = besideColumns(rows, [one], broods('xxyy'));
      expect(fixed.length + numbers.length).toBe(0);
      return noted[0]!.whyNot;
    };
    expect(whyNot(trait('measured', []))).toMatch(/No fish that counts here/);
    expect(
      whyNot(
        trait(
          'yes_no',
          all(() => 1),
        ),
      ),
    ).toMatch(/one level/);
    expect(
      whyNot(
        trait(
          'count',
          all(() => 3),
        ),
      ),
    ).toMatch(/one value/);
    expect(
      whyNot(
        trait(
          'yes_no',
          all((k) => (k < 2 ? 1 : 0)),
        ),
      ),
    ).toMatch(/level of its own/);
  });

  it('does not take the name of a column that there is already', () => {
    const sex = trait('yes_no', [look('a', '2026-03-10', 1), look('c', '2026-03-10', 0)], 'Sex');
    const { fixed } = besideColumns(rows, [sex], broods('xxyy'));
    expect(fixed[0]).toMatchObject({ name: 'Sex (trait)', levels: ['no', 'not scored', 'yes'] });
  });
});
