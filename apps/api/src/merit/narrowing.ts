import {
  type AnimalScores,
  narrowedByEach,
  type Posterior,
  type ScorePlan,
  type SolvedModel,
  worthScoring,
} from '@linewright/merit';
import type { NarrowingAnswer, PlanKind, WorthAnswer } from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { orNone } from './or-none.js';

const DOZEN = 12;
const FIVE = 5;
/** Above this it is not gone over what plans would narrow. */
const MOST_FISH = 20_000;
/** Looks to choose from times equations: each costs a solution and a round for each of the dozen, a second for all of them. */
const MOST_NUMBERS = 6e6;

/** The level that most looks have, in each column of classes; the mean, which is 0, of age and of other numbers. */
const usualLook = ({ fixed, age, numbers }: MeritTask): number[] => [
  ...fixed.map(({ levels, codes }) => {
    const counts = levels.map(() => 0);
    for (const code of codes) counts[code]! += 1;
    return counts.indexOf(Math.max(...counts));
  }),
  ...(age === null ? [] : [0]),
  ...numbers.map(() => 0),
];

/** Which fish that are alive here and were not scored are worth scoring next, the most telling first. */
export const fishWorthScoring = (
  task: MeritTask,
  solved: SolvedModel,
  mostNumbers = MOST_NUMBERS,
): { readonly worth: WorthAnswer[]; readonly leftOut: string[] } => {
  const most = Math.max(DOZEN, Math.floor(mostNumbers / solved.equations.size));
  const candidates = [...task.unscored].slice(0, most);
  if (candidates.length === 0) return { worth: [], leftOut: [] };
  const fixed = usualLook(task);
  const shared = task.shared.map(() => -1);
  const matter = [...new Set([...task.fish, ...candidates])];
  const looks = candidates.map((fish) => ({ fish, fixed, shared }));
  const worth = (orNone(() => worthScoring(solved, looks, DOZEN, matter)) ?? []).map(
    ({ fish, before, after }) => ({
      fish,
      errorBefore: Math.sqrt(Math.max(0, before)),
      errorAfter: Math.sqrt(Math.max(0, after)),
    }),
  );
  return { worth, leftOut: candidates.length < task.unscored.length ? [notAll(task, most)] : [] };
};

const notAll = ({ unscored }: MeritTask, most: number): string =>
  `${unscored.length.toLocaleString('en-GB')} fish that are alive here are not scored. Only ${most.toLocaleString('en-GB')} of them were compared to find those worth scoring next: first those that are not sorted yet.`;

/** What is not foretold because the stock is large, in sentences. */
export const notForeseen = ({ sire }: Pick<MeritTask, 'sire'>): string[] =>
  sire.length > MOST_FISH
    ? [
        `With more than ${MOST_FISH.toLocaleString('en-GB')} fish on record it is not worked out by how much more scores would narrow the figures.`,
      ]
    : [];

/** By how much some plans would narrow what is known. */
export const narrowings = (
  task: MeritTask,
  scores: AnimalScores,
  posterior: Posterior,
  worth: readonly WorthAnswer[],
): NarrowingAnswer[] => {
  if (task.sire.length > MOST_FISH) return [];
  const brood = { sire: -1, dam: -1, scored: DOZEN };
  // Parents from outside are of no line: with lines apart their young would tell of another mean, and errors would seem to grow.
  const { groups: _lines, ...together } = scores;
  const plans: [PlanKind, ScorePlan][] = [
    ...(worth.length === 0
      ? []
      : [['next_fish', { fish: worth.map(({ fish }) => fish) }] as [PlanKind, ScorePlan]]),
    ['one_brood', { broods: [brood] }],
    ['five_broods', { broods: Array.from({ length: FIVE }, () => brood) }],
  ];
  const effectsOf = orNone(() =>
    narrowedByEach(together, posterior, { matter: [...new Set(task.fish)] }),
  );
  if (effectsOf === null) return [];
  return plans.flatMap(([plan, scorePlan]): NarrowingAnswer[] => {
    // What cannot be foretold from these scores is left out.
    const told = orNone(() => effectsOf(scorePlan));
    if (told === null) return [];
    const { scoresAdded, heritability, values } = told;
    return [
      {
        plan,
        scoresAdded,
        heritabilityNow: heritability.now,
        heritabilityThen: heritability.then,
        valuesNow: values.now,
        valuesThen: values.then,
      },
    ];
  });
};
