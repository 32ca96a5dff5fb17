import { type MeritNote, type MeritNoteCode, selectionOfScores } from '@linewright/merit';
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
  values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;

/** What the checks of docs/methods/heritability.md found with the best half of each brood scored. */
const BANDS_THEN =
  'In simulated lines with only the best half of each brood scored, bands said to hold in 95 of 100 cases held in 78 to 89.';

const SELECTED: readonly MeritNoteCode[] = ['MERIT_KEEPERS_ONLY', 'MERIT_SCORED_AFTER_CULL'];

/** Counts of each brood with scored fish; fish without a brood are not sorted from anything and do not count. */
export const selectionOf = ({ trait, looks, facts, broods }: TraitStock): Selection => {
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
  const before = new Map(
    broods.map(({ spawnId, sortedOn, drawn }) => {
      const chosen = new Set(drawn);
      const isBefore = (id: string): boolean =>
        sortedOn === null || chosen.has(id) || ofFish.get(id)!.first <= sortedOn;
      return [spawnId, new Set((ofBrood.get(spawnId) ?? []).filter(isBefore))];
    }),
  );
  const rows = broods.map(
    ({ drawn, lineId: _line, culledUnrecorded: _culls, ...brood }): BroodSelection => {
      const scored = ofBrood.get(brood.spawnId) ?? [];
      const first = before.get(brood.spawnId)!;
      const meanOf = (ids: readonly string[]): number | null =>
        mean(ids.map((id) => mean(ofFish.get(id)!.values)!));
      return {
        ...brood,
        scored: scored.length,
        scoredBeforeSorting: first.size,
        drawn: drawn.length,
        meanBeforeSorting: meanOf([...first]),
        meanInUse: meanOf(scored.filter((id) => facts.get(id)?.inUse === true)),
      };
    },
  );
  const total = (of: (row: BroodSelection) => number): number =>
    rows.reduce((sum, row) => sum + of(row), 0);
  const counts = {
    scored: total(({ scored }) => scored),
    scoredBeforeSorting: total((row) => row.scoredBeforeSorting),
    culled: total(({ culled }) => culled),
    culledForTrait: total((row) => row.culledForTrait),
  };
  const { notes } = selectionOfScores(
    trait.name,
    broods.map(({ spawnId, recorded, culled, culledForTrait, culledUnrecorded }) => ({
      counted: recorded + culledUnrecorded,
      culled,
      culledForTrait,
      scored: (ofBrood.get(spawnId) ?? []).map((id) => ({
        score: mean(ofFish.get(id)!.values)!,
        when: before.get(spawnId)!.has(id) ? 'before any cull' : 'after a cull',
      })),
    })),
  );
  const warning = notes.find(({ code }) => SELECTED.includes(code)) ?? null;
  return {
    ...counts,
    warning: warning?.code ?? null,
    message: warning === null ? null : `${warning.message} ${BANDS_THEN}`,
    notes,
    broods: rows,
  };
};
