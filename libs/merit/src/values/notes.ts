import type { AnimalScores } from './animal-model.js';
import type { SolvedModel } from './breeding-values.js';

export type MeritNoteCode =
  | 'MERIT_ONE_LEVEL'
  | 'MERIT_TOLD_TWICE'
  | 'MERIT_NO_RELATIVES'
  | 'MERIT_LOOKS_NOT_FITTED'
  | 'MERIT_LOOKS_CONTRADICT'
  | 'MERIT_UNITS_MIXED'
  | 'MERIT_VARIANCE_ZERO'
  | 'MERIT_BY_ITERATION'
  | 'MERIT_FROM_PART'
  | 'MERIT_ORDERS_DIFFER'
  | 'MERIT_FEW_TOGETHER'
  | 'MERIT_CORRELATION_DOUBTFUL'
  | 'MERIT_KEEPERS_ONLY'
  | 'MERIT_SCORED_AFTER_CULL'
  | 'MERIT_CULLED_FOR_TRAIT'
  | 'MERIT_FEW_OF_BROOD'
  | 'MERIT_BROOD_NOT_COUNTED'
  | 'MERIT_WHEN_NOT_KNOWN';

/** Something the reader should know of an answer that stands all the same. */
export interface MeritNote {
  readonly code: MeritNoteCode;
  readonly message: string;
}

/** What to know of the columns, the looks and the units of scores. Cost: linear, and a sort of the scores. */
export function notesOn(scores: AnimalScores, { equations, variances }: SolvedModel): MeritNote[] {
  return [
    ...oneLevel(scores),
    ...toldTwice(equations.design.dropped, scores),
    ...noRelatives(scores),
    ...repeatedLooks(scores),
    ...unitsMixed(scores),
    ...equations.model.random.flatMap(({ name, slots }, term) =>
      slots.flatMap(({ trait }, i): MeritNote[] =>
        variances.random[term]![i]![i]! > 0
          ? []
          : [
              {
                code: 'MERIT_VARIANCE_ZERO',
                message: `The ${name} variance of "${scores.traits[trait]!.name}" was estimated as 0: these scores show none. That is not proof that there is none.`,
              },
            ],
      ),
    ),
  ];
}

function oneLevel({ fixed }: AnimalScores): MeritNote[] {
  return (fixed ?? []).flatMap((column): MeritNote[] => {
    if (column.kind !== 'classes' || column.levels.length > 1) return [];
    return [
      {
        code: 'MERIT_ONE_LEVEL',
        message: `"${column.name}" has one level only, so it says no more than a mean.`,
      },
    ];
  });
}

function toldTwice(
  dropped: SolvedModel['equations']['design']['dropped'],
  { traits }: AnimalScores,
): MeritNote[] {
  const extra = dropped.filter(({ byCustom }) => !byCustom);
  const columns = [...new Set(extra.map(({ column, trait }) => `${column}\u0000${trait}`))];
  return columns.map((key): MeritNote => {
    const [name, trait] = key.split('\u0000') as [string, string];
    const levels = extra.flatMap(({ column, level, trait: of }) =>
      column === name && of === Number(trait) && level !== null ? [`"${level}"`] : [],
    );
    const what = levels.length === 0 ? `"${name}"` : `${levels.join(', ')} of "${name}"`;
    return {
      code: 'MERIT_TOLD_TWICE',
      message: `${what} says nothing that the columns before do not say already (scores of "${traits[Number(trait)]!.name}"), and stands at 0. Breeding values do not change by that; the other effects of these columns are differences from it.`,
    };
  });
}

/** Each ancestor of a scored fish is gone to once: whoever comes to one a second time has found two that are related. */
function noRelatives({ pedigree: { sire, dam, size }, fish }: AnimalScores): MeritNote[] {
  const seen = new Uint8Array(size);
  for (const scored of new Set(fish)) {
    const open = [scored];
    for (let i = open.pop(); i !== undefined; i = open.pop()) {
      if (seen[i] === 1) return [];
      seen[i] = 1;
      for (const parent of [sire[i]!, dam[i]!]) if (parent >= 0) open.push(parent);
    }
  }
  return [
    {
      code: 'MERIT_NO_RELATIVES',
      message:
        'No two of the scored fish are related on record: each breeding value rests on the fish’s own scores alone.',
    },
  ];
}

function repeatedLooks({ fish, traits, permanent }: AnimalScores): MeritNote[] {
  return traits.flatMap(({ name, values }): MeritNote[] => {
    const looks = new Map<number, number[]>();
    fish.forEach((index, row) => {
      if (Number.isNaN(values[row]!)) return;
      const list = looks.get(index);
      if (list === undefined) looks.set(index, [values[row]!]);
      else list.push(values[row]!);
    });
    const repeated = [...looks.values()].filter((list) => list.length > 1);
    if (repeated.length === 0) return [];
    const notes: MeritNote[] = [];
    if (permanent !== true)
      notes.push({
        code: 'MERIT_LOOKS_NOT_FITTED',
        message: `${repeated.length} fish were looked at more than once for "${name}". What stays with a fish but is not inherited counts as breeding value here, unless a permanent effect is fitted too.`,
      });
    if (looks.size > 2 && contradict([...looks.values()]))
      notes.push({
        code: 'MERIT_LOOKS_CONTRADICT',
        message: `Repeated looks at one fish differ as much as looks at different fish ("${name}"): check whether tags were mixed up, or units.`,
      });
    return notes;
  });
}

/** True when scores vary within fish no less than between them: an intraclass correlation not above 0. */
function contradict(looks: readonly (readonly number[])[]): boolean {
  const all = looks.flat();
  if (all.length - looks.length < 5) return false;
  const mean = (list: readonly number[]): number =>
    list.reduce((sum, v) => sum + v, 0) / list.length;
  const grand = mean(all);
  let [between, within] = [0, 0];
  for (const list of looks) {
    const own = mean(list);
    between += list.length * (own - grand) ** 2;
    for (const value of list) within += (value - own) ** 2;
  }
  return between / (looks.length - 1) <= within / (all.length - looks.length);
}

/** Positive scores in two heaps, each narrow, far apart: as when some were written in other units. */
function unitsMixed({ traits }: AnimalScores): MeritNote[] {
  return traits.flatMap(({ name, values }): MeritNote[] => {
    const sorted = values.filter((value) => !Number.isNaN(value)).sort();
    if (sorted.length < 4 || !(sorted[0]! > 0)) return [];
    let cut = 1;
    for (let k = 2; k < sorted.length; k++)
      if (sorted[k]! / sorted[k - 1]! > sorted[cut]! / sorted[cut - 1]!) cut = k;
    const gap = sorted[cut]! / sorted[cut - 1]!;
    const widest = Math.max(sorted[cut - 1]! / sorted[0]!, sorted.at(-1)! / sorted[cut]!);
    if (gap < 2 || gap < widest) return [];
    return [
      {
        code: 'MERIT_UNITS_MIXED',
        message: `Scores of "${name}" fall in two heaps: ${cut} up to ${sorted[cut - 1]!}, ${sorted.length - cut} from ${sorted[cut]!}. Check whether some were written in other units.`,
      },
    ];
  });
}
