/**
 * When a figure over several keepers may be told, so that nobody reads off what is one keeper's. Thresholds of three contributors and a largest
 * share are common practice of statistical offices (from memory: Hundepool A et al. (2012) Statistical Disclosure Control, Wiley, ch. 4); the numbers
 * are ours.
 */
export const LEAST_KEEPERS = 3;
/** Rows (broods, or scored fish) in all. */
export const LEAST_ROWS = 12;
/** Rows of a line, below which the line is left out. */
export const LEAST_OF_LINE = 3;
/** Largest share of all rows that may be one keeper's. */
export const LARGEST_SHARE = 0.6;

/** Rows of a pooled figure, each of one line. */
export interface Contribution {
  readonly lineId: string;
  readonly rows: number;
}

export interface Disclosure {
  /** Lines that go in, those with too few rows left out. */
  readonly lineIds: readonly string[];
  readonly keepers: number;
  readonly rows: number;
  /** Why nothing is told; null where it is. */
  readonly whyNot: string | null;
}

/** @param keeperOf whose line it is. */
export const disclosureOf = (
  contributions: readonly Contribution[],
  keeperOf: ReadonlyMap<string, string>,
): Disclosure => {
  const taken = contributions.filter(({ rows }) => rows >= LEAST_OF_LINE);
  const byKeeper = new Map<string, number>();
  for (const { lineId, rows } of taken) {
    const keeper = keeperOf.get(lineId) ?? '';
    byKeeper.set(keeper, (byKeeper.get(keeper) ?? 0) + rows);
  }
  const rows = taken.reduce((sum, one) => sum + one.rows, 0);
  const largest = Math.max(0, ...byKeeper.values());
  const told = { lineIds: taken.map(({ lineId }) => lineId), keepers: byKeeper.size, rows };
  if (byKeeper.size < LEAST_KEEPERS)
    return {
      ...told,
      whyNot: `Nothing is told from fewer than ${LEAST_KEEPERS} keepers: each could be read off by those who know their own.`,
    };
  if (rows < LEAST_ROWS)
    return { ...told, whyNot: `Nothing is told from fewer than ${LEAST_ROWS} in all.` };
  if (largest > LARGEST_SHARE * rows)
    return {
      ...told,
      whyNot: `Nothing is told where more than ${100 * LARGEST_SHARE} of 100 are one keeper's.`,
    };
  return { ...told, whyNot: null };
};

/**
 * Whether a figure of other lines than last time may be told: the difference must not be one keeper's. True too for the very same lines, and where none
 * was told before.
 */
export const differsEnough = (
  before: readonly string[],
  now: readonly string[],
  keeperOf: (lineId: string) => string | undefined,
): boolean => {
  if (before.length === 0) return true;
  const changed = [
    ...before.filter((id) => !now.includes(id)),
    ...now.filter((id) => !before.includes(id)),
  ];
  return changed.length === 0 || new Set(changed.map((id) => keeperOf(id) ?? id)).size > 1;
};

export const ONE_CHANGED =
  'One keeper alone began or ended since this was told last: it is told again once another does, so that nobody reads off the difference.';

/** Two significant digits: a figure that says no more than it can. */
export const rounded = (value: number): number => Number(value.toPrecision(2));
