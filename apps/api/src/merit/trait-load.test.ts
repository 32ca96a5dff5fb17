import { describe, expect, it } from 'vitest';
import { latestRows } from './trait-load.service.js';

describe('the latest looks', () => {
  const looks = ['2026-03-01', '2025-01-01', '2026-03-01', '2024-07-09', '2026-01-30'].map(
    (scoredOn) => ({ scoredOn }),
  );
  it('are those of the latest days, in the order in which they stand', () => {
    expect(latestRows([0, 1, 2, 3, 4], looks, 3)).toEqual([0, 2, 4]);
    expect(latestRows([0, 1, 2, 3, 4], looks, 5)).toEqual([0, 1, 2, 3, 4]);
    // Of one day the later rows.
    expect(latestRows([0, 1, 2], looks, 1)).toEqual([2]);
    expect(latestRows([], looks, 2)).toEqual([]);
  });
});
