import type { TraitStock } from './trait-records.service.js';

/** How selected the scores of a trait are: whether fish were scored that were not chosen by how they look. */
export const SelectionWarning = {
  KEEPERS_ONLY: 'keepers_only',
  PARTLY_KEEPERS: 'partly_keepers',
} as const;
export type SelectionWarning = (typeof SelectionWarning)[keyof typeof SelectionWarning];

export interface BroodSelection {
  readonly spawnId: string;
  readonly tag: string;
  readonly sortedOn: string | null;
  readonly recorded: number;
  readonly scored: number;
  readonly scoredBeforeSorting: number;
  readonly drawn: number;
  readonly culled: number;
  readonly culledForTrait: number;
  readonly meanBeforeSorting: number | null;
  readonly meanInUse: number | null;
}

export interface Selection {
  readonly scored: number;
  readonly scoredBeforeSorting: number;
  readonly culled: number;
  readonly culledForTrait: number;
  readonly warning: SelectionWarning | null;
  readonly message: string | null;
  readonly broods: readonly BroodSelection[];
}

const mean = (values: readonly number[]): number | null =>
  values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;

/** What the checks of docs/methods/heritability.md found with the best half of each brood scored. */
const BANDS_THEN =
  'In simulated lines with only the best half of each brood scored, bands said to hold in 95 of 100 cases held in 78 to 89. Let chance choose a dozen of each brood and score them before sorting: they are worth more than fifty keepers.';

/** Counts of each brood with scored fish; fish without a brood are not sorted from anything and do not count. */
export const selectionOf = ({ looks, facts, broods }: TraitStock): Selection => {
  const ofFish = new Map<string, { first: string; values: number[] }>();
  for (const { fishId, value, scoredOn } of looks) {
    const known = ofFish.get(fishId);
    if (known === undefined) ofFish.set(fishId, { first: scoredOn, values: [value] });
    else {
      known.values.push(value);
      if (scoredOn < known.first) known.first = scoredOn;
    }
  }
  const ofBrood = new Map<string, string[]>();
  for (const id of ofFish.keys()) {
    const spawn = facts.get(id)?.spawnId ?? null;
    if (spawn !== null) ofBrood.set(spawn, [...(ofBrood.get(spawn) ?? []), id]);
  }
  const rows = broods.map(({ drawn, lineId: _, ...brood }): BroodSelection => {
    const scored = ofBrood.get(brood.spawnId) ?? [];
    const chosen = new Set(drawn);
    const before = scored.filter(
      (id) => brood.sortedOn === null || chosen.has(id) || ofFish.get(id)!.first <= brood.sortedOn,
    );
    const meanOf = (ids: readonly string[]): number | null =>
      mean(ids.map((id) => mean(ofFish.get(id)!.values)!));
    return {
      ...brood,
      scored: scored.length,
      scoredBeforeSorting: before.length,
      drawn: drawn.length,
      meanBeforeSorting: meanOf(before),
      meanInUse: meanOf(scored.filter((id) => facts.get(id)?.inUse === true)),
    };
  });
  const total = (of: (row: BroodSelection) => number): number =>
    rows.reduce((sum, row) => sum + of(row), 0);
  const counts = {
    scored: total(({ scored }) => scored),
    scoredBeforeSorting: total((row) => row.scoredBeforeSorting),
    culled: total(({ culled }) => culled),
    culledForTrait: total((row) => row.culledForTrait),
  };
  return { ...counts, ...warningOf(counts), broods: rows };
};

const warningOf = ({
  scored,
  scoredBeforeSorting,
}: Pick<Selection, 'scored' | 'scoredBeforeSorting'>): Pick<Selection, 'warning' | 'message'> => {
  if (scored === scoredBeforeSorting) return { warning: null, message: null };
  if (scoredBeforeSorting === 0)
    return {
      warning: SelectionWarning.KEEPERS_ONLY,
      message: `All ${scored} fish were scored after their brood was sorted, so the scores are those of chosen fish, and no band tells how wrong the values are. ${BANDS_THEN}`,
    };
  return {
    warning: SelectionWarning.PARTLY_KEEPERS,
    message: `${scored - scoredBeforeSorting} of ${scored} fish were scored after their brood was sorted: those are chosen fish. ${BANDS_THEN}`,
  };
};
