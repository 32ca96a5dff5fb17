import { DAY, HOUR, hoursText } from '../time-units.js';
import { DAY_ONLY_SLACK } from './log-order.js';
import type { CareRecord } from './plan-shapes.js';
import type { SpawnEventId } from './template.js';

/** How far apart two events of a brood can be at all, in hours, and what says so. */
export interface PossibleInterval {
  readonly from: SpawnEventId;
  readonly to: SpawnEventId;
  readonly leastHours: number;
  /** `null` where nothing bounds it: young are jarred or sorted as late as the person likes. */
  readonly mostHours: number | null;
  readonly basis: string;
}

const days = (n: number): number => n * 24;

/** The last eggs are laid up to six hours after the first (breeders' practice), and either may be what was written down. */
const SPAWNING_HOURS = 6;

const celik = 'Celik et al. 2022, abstract';
const ours =
  'The upper bound is our own, several times what is usual: it is there to find typing mistakes, not slow broods';

/**
 * Bounds outside of which a time is taken for a slip, not for a fast or slow brood. They are wide on purpose: development follows
 * temperature, and no series over several temperatures was found for this species, so nothing is reckoned from one.
 *
 * Basis: named at each; what is called practice is what breeders tell, without a published source.
 */
export const possibleIntervals: readonly PossibleInterval[] = [
  {
    from: 'spawned',
    to: 'eyed',
    leastHours: 18 - SPAWNING_HOURS,
    mostHours: days(7),
    basis: `Eyes show 18 to 36 h after spawning (practice), minus the length of a spawning. ${ours}.`,
  },
  {
    from: 'spawned',
    to: 'hatched',
    leastHours: 24 - SPAWNING_HOURS,
    mostHours: days(7),
    basis: `Hatching takes 24 to 48 h (practice; 28 to 32 h at 28 °C: ${celik}), minus the length of a spawning. ${ours}.`,
  },
  {
    from: 'spawned',
    to: 'free_swimming',
    leastHours: 24 + 18 - 2 * SPAWNING_HOURS,
    mostHours: days(21),
    basis: `The two intervals that it is made of. ${ours}.`,
  },
  {
    from: 'hatched',
    to: 'free_swimming',
    leastHours: 18 - SPAWNING_HOURS,
    mostHours: days(14),
    basis: `Fry swim level 18 h after hatching at the earliest (practice; 4 days: ${celik}), minus the delay of the last eggs. ${ours}.`,
  },
  ...(['jarred', 'sorted'] as const).flatMap((to): PossibleInterval[] => [
    {
      from: 'hatched',
      to,
      leastHours: days(11),
      mostHours: null,
      basis: `Before the bend of the tail, 11 to 12 days after hatching (${celik}), they are larvae; breeders jar after weeks.`,
    },
    {
      from: 'free_swimming',
      to,
      leastHours: days(11 - 4),
      mostHours: null,
      basis: `The same, minus the 4 days from hatching to swimming freely (${celik}).`,
    },
    {
      from: 'spawned',
      to,
      leastHours: days(11),
      mostHours: null,
      basis: `The same bound as from hatching, which comes later (${celik}).`,
    },
  ]),
];

/** Two recorded times that cannot both be right. */
export interface ImpossibleInterval<Kept extends CareRecord = CareRecord> {
  readonly first: Kept;
  readonly second: Kept;
  /** From the first to the second; negative when they stand the wrong way round. */
  readonly hours: number;
  readonly bound: PossibleInterval;
}

/**
 * Pairs of events of a brood nearer together or further apart than any brood's, such as a hatch in the minute of spawning. Of
 * several records of an event the first counts; where only a day is known, the bounds are wider by what the hour may be off.
 *
 * Cost: records × intervals.
 * @example impossibleIntervals(log).map(impossibleIntervalText)
 */
export const impossibleIntervals = <Kept extends CareRecord>(
  records: readonly Kept[],
): ImpossibleInterval<Kept>[] => {
  const firstOf = new Map<string, Kept>();
  for (const record of records) {
    const known = firstOf.get(record.step);
    if (record.action === 'skipped' || (known !== undefined && known.at <= record.at)) continue;
    firstOf.set(record.step, record);
  }
  return possibleIntervals.flatMap((bound) => {
    const first = firstOf.get(bound.from);
    const second = firstOf.get(bound.to);
    if (first === undefined || second === undefined) return [];
    const slack = first.dayOnly === true || second.dayOnly === true ? DAY_ONLY_SLACK / HOUR : 0;
    const hours = (second.at - first.at) / HOUR;
    const possible =
      hours >= bound.leastHours - slack &&
      (bound.mostHours === null || hours <= bound.mostHours + slack);
    return possible ? [] : [{ first, second, hours, bound }];
  });
};

const words: Readonly<Partial<Record<SpawnEventId, string>>> = {
  spawned: 'spawned',
  eyed: 'eyed eggs',
  hatched: 'hatched',
  free_swimming: 'free-swimming',
  jarred: 'jarred',
  sorted: 'sorted',
};

const wordOf = (event: SpawnEventId): string => `“${words[event] ?? event}”`;

/** What is wrong with the two times, and what to do about it. */
export const impossibleIntervalText = ({ hours, bound }: ImpossibleInterval): string => {
  const { from, to, leastHours, mostHours } = bound;
  const apart = hoursText(hours);
  const stands = `${wordOf(to)} stands ${apart} ${hours < 0 ? 'before' : 'after'} ${wordOf(from)}`;
  const limit =
    mostHours !== null && hours > mostHours
      ? `it comes within ${hoursText(mostHours)}`
      : `it takes at least ${hoursText(leastHours)}`;
  return `${stands}, and ${limit}: give the time it happened, or correct the time of ${wordOf(from)} first.`;
};

/** The day of spawning and of hatching, as two records whose hours nobody knows. */
export const daysAsRecords = (days: {
  readonly spawnedOn: string | null;
  readonly hatchDate: string | null;
}): CareRecord[] =>
  Object.entries({ spawned: days.spawnedOn, hatched: days.hatchDate }).flatMap(([step, day]) =>
    day === null ? [] : [{ id: `day:${step}`, step, at: Date.parse(day) + DAY / 2, dayOnly: true }],
  );
