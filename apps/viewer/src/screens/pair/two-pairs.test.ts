import { describe, expect, it } from 'vitest';
import { differenceWords, sideBySide, speaksFor } from './two-pairs.js';

type Pair = Parameters<typeof sideBySide>[0];

const pair = (points: number, trait: number, f: number, chance: number | null): Pair =>
  ({
    worth: {
      ...{ points, standardError: 1, choice: 3 },
      traits: [{ points: trait, trait: { name: 'spread' } }],
      looks: [{ label: 'royal', points: null }],
    },
    passing: { chance },
    inbreedingCoefficient: f,
    warnings: [],
    sire: { tag: `S${points}` },
    dam: { tag: `D${points}` },
  }) as unknown as Pair;

describe('two pairs side by side', () => {
  const [first, second] = [pair(6, 2, 0.25, 0.4), pair(4, 3, 0.125, 0.4)];

  it('tell what speaks for each', () => {
    expect(speaksFor(first, second, 'first')).toBe('worth.');
    expect(speaksFor(first, second, 'second')).toBe('spread, F of the brood.');
    expect(speaksFor(first, first, 'first')).toBe('nothing here.');
  });

  it('speak for neither where something is not known', () => {
    const rows = sideBySide(first, { ...second, passing: { chance: null } } as Pair);
    const of = (name: string) => rows.find((row) => row.name === name);
    expect(of('royal, points')).toMatchObject({ texts: ['not known', 'not known'], better: null });
    expect(of('chance that enough pass')).toMatchObject({
      texts: ['40 %', 'not known'],
      better: null,
    });
  });

  it('are told apart, or not', () => {
    const apart = { points: -2, standardError: 0.5, toldApart: true };
    expect(differenceWords(first, second, apart)).toBe(
      'S4 by D4 is worth more than S6 by D6, by 2 ± 0.5 points.',
    );
    expect(differenceWords(first, second, { ...apart, toldApart: false })).toMatch(
      /cannot be told apart: they differ by 2 ± 0.5/,
    );
  });
});
