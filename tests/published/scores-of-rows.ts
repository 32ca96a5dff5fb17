import { expect } from 'vitest';
import type { FixedColumn, SharedColumn } from '@linewright/merit';

/** Levels in the order in which they are met. */
export function levelsOf(labels: readonly (string | number)[]): {
  readonly levels: string[];
  readonly codes: Int32Array;
} {
  const number = new Map<string, number>();
  const codes = Int32Array.from(labels, (label) => {
    const known = number.get(String(label)) ?? number.size;
    number.set(String(label), known);
    return known;
  });
  return { levels: [...number.keys()], codes };
}

export const classes = (name: string, labels: readonly (string | number)[]): FixedColumn => ({
  kind: 'classes',
  name,
  ...levelsOf(labels),
});

export const shared = (name: string, labels: readonly (string | number)[]): SharedColumn => ({
  name,
  ...levelsOf(labels),
});

/** Asserts that each figure is as printed, within `units` of the last place. */
export function expectPrinted(
  actual: ArrayLike<number>,
  printed: readonly number[],
  decimals: number,
  units = 0.5,
): void {
  const wrong = printed.flatMap((value, k) =>
    Math.abs(actual[k]! - value) <= units * 10 ** -decimals + 1e-12
      ? []
      : [`${k}: ${actual[k]} for ${value}`],
  );
  expect(actual).toHaveLength(printed.length);
  expect(wrong).toEqual([]);
}
