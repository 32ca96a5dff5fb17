import { type MeritNote, type MeritNoteCode, selectionOfScores } from '@linewright/merit';
import { meanOf } from './trait-figures.js';
import type { TraitStock } from './trait-records.service.js';

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
  readonly warning: MeritNoteCode | null;
  readonly message: string | null;
  readonly notes: readonly MeritNote[];
  readonly broods: readonly BroodSelection[];
}

const mean = (values: readonly number[]): number | null =>
  values.length === 0 ? null : meanOf(values);

/** What the checks of docs/methods/heritability.md found with the best half of each brood scored. */
export const BANDS_THEN =
  'In simulated lines with only the best half of each brood scored, bands of values said to hold in 95 of 100 cases held in 74 to 89; those of the heritability in 86 to 100 with 60 fish, in 60 to 97 with 300, in 1 to 23 with 3,000.';

const SELECTED: readonly MeritNoteCode[] = ['MERIT_KEEPERS_ONLY', 'MERIT_SCORED_AFTER_CULL'];

type Looked = ReadonlyMap<string, { readonly first: string; readonly values: readonly number[] }>;

/** Each scored fish with the day of its first look, and all its values. */
const lookedAt = (looks: TraitStock['looks']): Looked => {
  const found = new Map<string, { first: string; values: number[] }>();
  for (const { fishId, value, scoredOn } of looks) {
    const known = found.get(fishId);
    if (known === undefined) found.set(fishId, { first: scoredOn, values: [value] });
    else {
      known.values.push(value);
      if (scoredOn < known.first) known.first = scoredOn;
    }
  }
  return found;
};

/** A brood with its scored fish, and which of them were scored before sorting or drawn for it. */
interface ScoredBrood {
  readonly brood: TraitStock['broods'][number];
  readonly scored: readonly string[];
  readonly before: ReadonlySet<string>;
}

const scoredBroods = ({ facts, broods }: TraitStock, looked: Looked): ScoredBrood[] => {
  const ofBrood = new Map<string, string[]>();
  for (const id of looked.keys()) {
    const spawn = facts.get(id)?.spawnId ?? null;
    if (spawn === null) continue;
    const known = ofBrood.get(spawn);
    if (known === undefined) ofBrood.set(spawn, [id]);
    else known.push(id);
  }
  return broods.map((brood): ScoredBrood => {
    const { spawnId, sortedOn, drawn } = brood;
    const chosen = new Set(drawn);
    const scored = ofBrood.get(spawnId) ?? [];
    const isBefore = (id: string): boolean =>
      sortedOn === null || chosen.has(id) || looked.get(id)!.first <= sortedOn;
    return { brood, scored, before: new Set(scored.filter(isBefore)) };
  });
};

/** Counts of each brood with scored fish; fish without a brood are not sorted from anything and do not count. */
export const selectionOf = (stock: TraitStock): Selection => {
  const looked = lookedAt(stock.looks);
  const valueOf = (id: string): number => mean(looked.get(id)!.values)!;
  const found = scoredBroods(stock, looked);
  const rows = found.map(({ brood, scored, before }): BroodSelection => {
    const { drawn, lineId: _line, culledUnrecorded: _culls, ...counts } = brood;
    return {
      ...counts,
      scored: scored.length,
      scoredBeforeSorting: before.size,
      drawn: drawn.length,
      meanBeforeSorting: mean([...before].map(valueOf)),
      meanInUse: mean(scored.filter((id) => stock.facts.get(id)?.inUse === true).map(valueOf)),
    };
  });
  const total = (of: (row: BroodSelection) => number): number =>
    rows.reduce((sum, row) => sum + of(row), 0);
  const { notes } = selectionOfScores(
    stock.trait.name,
    found.map(({ brood, scored, before }) => ({
      counted: brood.recorded + brood.culledUnrecorded,
      culled: brood.culled,
      culledForTrait: brood.culledForTrait,
      scored: scored.map((id) => ({
        score: valueOf(id),
        when: before.has(id) ? 'before any cull' : 'after a cull',
      })),
    })),
  );
  const warning = notes.find(({ code }) => SELECTED.includes(code)) ?? null;
  return {
    scored: total(({ scored }) => scored),
    scoredBeforeSorting: total((row) => row.scoredBeforeSorting),
    culled: total(({ culled }) => culled),
    culledForTrait: total((row) => row.culledForTrait),
    warning: warning?.code ?? null,
    message: warning === null ? null : `${warning.message} ${BANDS_THEN}`,
    notes,
    broods: rows,
  };
};
