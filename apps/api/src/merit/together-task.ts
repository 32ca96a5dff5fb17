import { type AnimalScores, traitsLookedAtAgain } from '@linewright/merit';
import type { LookRow } from '../stock/merit-rows.js';
import { buildTask } from './build-task.js';
import type { MeritTask } from './merit-task.js';
import { scoresOfTask } from './scores-of-task.js';
import type { TraitStock } from './trait-records.service.js';
import type { TraitSettings } from './trait-settings.js';

/** Two traits with the whole pedigree: one row a fish and day, a score `NaN` where the row has none. */
export interface TogetherTask {
  /** With the values of the first. */
  readonly task: MeritTask;
  readonly second: { readonly trait: string; readonly values: Float64Array };
}

/** Rows of both: looks at a fish on one day go together in their order. */
const joinedLooks = (
  first: readonly LookRow[],
  second: readonly LookRow[],
): { readonly look: LookRow; readonly values: readonly [number, number] }[] => {
  const open = new Map<string, LookRow[]>();
  const dayOf = ({ fishId, scoredOn }: LookRow): string => `${fishId} ${scoredOn}`;
  for (const look of second) open.set(dayOf(look), [...(open.get(dayOf(look)) ?? []), look]);
  const rows = first.map((look) => {
    const other = open.get(dayOf(look))?.shift();
    return { look, values: [look.value, other?.value ?? NaN] as const };
  });
  const left = [...open.values()].flat();
  return [...rows, ...left.map((look) => ({ look, values: [NaN, look.value] as const }))];
};

/** Parts of the model that either trait is worked out with. */
const eitherOf = (a: TraitSettings, b: TraitSettings): TraitSettings => ({
  season: a.season || b.season,
  age: a.age || b.age,
  sex: a.sex || b.sex,
  linesApart: a.linesApart || b.linesApart,
  brood: a.brood || b.brood,
  place: a.place || b.place,
  looks: a.looks || b.looks,
  scorer: a.scorer || b.scorer,
  besideTraitIds: [],
  prior: a.prior,
});

/** Own traits that either is corrected for; neither of the two themselves. */
const besideEither = (first: TraitStock, second: TraitStock): TraitStock['beside'] => {
  const all = new Map([...first.beside, ...second.beside].map((one) => [one.id, one]));
  for (const { trait } of [first, second]) all.delete(trait.id);
  return [...all.values()];
};

const lookedAtAgain = (fish: Int32Array, values: readonly Float64Array[]): boolean =>
  traitsLookedAtAgain({ fish, traits: values.map((of) => ({ name: '', values: of })) }).length > 0;

/** A task of two traits, with the pedigree of the first. */
export const togetherTask = (first: TraitStock, second: TraitStock): TogetherTask => {
  const { pedigree } = first;
  const rows = joinedLooks(
    first.looks,
    second.looks.filter(({ fishId }) => pedigree.has(fishId)),
  );
  const column = (k: 0 | 1): Float64Array => Float64Array.from(rows, ({ values }) => values[k]);
  const { task } = buildTask({
    ...first,
    settings: eitherOf(first.settings, second.settings),
    beside: besideEither(first, second),
    looks: rows.map(({ look }) => look),
  });
  const values = [column(0), column(1)] as const;
  return {
    task: {
      ...task,
      values: values[0],
      // Rows of two traits on different days are no repeated looks.
      looks: task.looks && lookedAtAgain(task.fish, values),
      lines: [],
      unscored: new Int32Array(0),
    },
    second: { trait: second.trait.name, values: values[1] },
  };
};

export const scoresTogether = ({ task, second }: TogetherTask): AnimalScores => {
  const scores = scoresOfTask(task);
  const name = second.trait === task.trait ? `${second.trait} (second)` : second.trait;
  return { ...scores, traits: [...scores.traits, { name, values: second.values }] };
};
