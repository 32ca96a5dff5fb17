import { valuesByReml } from '@linewright/merit';
import { buildPedigree, seededChance } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';

const PAIRS = { A: ['S1', 'D1'], B: ['S2', 'D2'], C: ['S1', 'D2'] } as const;
const BROODS = ['A', 'B', 'C'] as const;

/** Two looks at each young that cancel out: every fish, and every brood, has the same mean. */
const looks = BROODS.flatMap((brood, b) =>
  Array.from({ length: 8 }, (_, k) => {
    const more = 4 * ((8 * b + k) % 3);
    return [
      { brood, k, more, day: 0 },
      { brood, k, more: 8 - more, day: 1 },
    ];
  }),
).flat();

describe('looks at fish that all have the same mean', () => {
  const pedigree = buildPedigree([
    ...['S1', 'S2', 'D1', 'D2'].map((id) => ({ id })),
    ...BROODS.flatMap((brood) =>
      Array.from({ length: 8 }, (_, k) => ({
        ...{ id: `${brood}${k}`, sire: PAIRS[brood][0], dam: PAIRS[brood][1] },
      })),
    ),
  ]);

  it.each(Array.from({ length: 40 }, (_, seed) => seed))(
    'have no variance between fish or broods, in whatever order they come (%i)',
    (seed) => {
      const chance = seededChance(seed);
      const rows = looks
        .map((look) => ({ ...look, place: chance() }))
        .toSorted((a, b) => a.place - b.place);
      const sexes = ['female', 'male'];
      const { components } = valuesByReml({
        pedigree,
        fish: Int32Array.from(rows, ({ brood, k }) => pedigree.indexOf(`${brood}${k}`)),
        traits: [{ name: 'Length', values: Float64Array.from(rows, ({ more }) => 30 + more) }],
        fixed: [
          {
            kind: 'classes',
            name: 'sex',
            levels: sexes,
            codes: Int32Array.from(rows, ({ k }) => k % 2),
          },
          {
            kind: 'covariate',
            name: 'age',
            values: Float64Array.from(rows, ({ day }) => day - 0.5),
          },
        ],
        shared: [
          {
            ...{ name: 'brood', levels: BROODS },
            codes: Int32Array.from(rows, ({ brood }) => BROODS.indexOf(brood)),
          },
        ],
        permanent: true,
      });
      expect(components.heritability[0]!.value).toBe(0);
      expect(components.random.map(({ estimates }) => estimates[0]![0]!.value)).toEqual(
        components.random.map(() => 0),
      );
    },
  );
});
