/** What a step asks of the person. */
export type CareStepKind = 'prepare' | 'do' | 'observe' | 'feed';

/** Where a step comes from: habit of breeders, a publication with its conditions, or the person. */
export type CareBasis =
  | { readonly kind: 'practice' }
  | { readonly kind: 'own' }
  | { readonly kind: 'published'; readonly citation: string; readonly conditions: string };

/**
 * When a step is due after another. Hours of `earliest <= hours <= latest`: `hours` is what is expected, the other two
 * bound the window in which it is neither early nor late.
 */
export interface CareTiming {
  /** Id of a step of the template, or one of {@link spawnEvents}. */
  readonly after: string;
  readonly hours: number;
  /** `hours` when absent. */
  readonly earliest?: number;
  /** `hours` when absent. */
  readonly latest?: number;
}

/** A step done again and again: counted from the last time it was done. */
export interface CareRepeat {
  readonly everyHours: number;
  /** It stops so many hours after the first time was due; without end when absent. */
  readonly forHours?: number;
}

export interface CareStep {
  /** What it is recorded under. A step named like one of {@link spawnEvents} is that event. */
  readonly id: string;
  readonly title: string;
  readonly kind: CareStepKind;
  /** With several, the latest decides: a step waits for all of them. */
  readonly after: readonly CareTiming[];
  readonly repeat?: CareRepeat;
  /** True: due once after every record of what it follows (any of them), such as clearing up after each feed. */
  readonly eachTime?: boolean;
  /** It no longer applies once one of these was recorded. */
  readonly until?: readonly string[];
  /** It applies only where this was recorded. */
  readonly onlyIf?: string;
  /**
   * It is dropped so many hours after its window closed: nothing is gained by doing it later. A repeated step so dropped
   * is taken as one that the person does not write down; recording it once starts it again.
   */
  readonly lapseHours?: number;
  readonly why: string;
  readonly basis: CareBasis;
  readonly caution?: string;
}

export interface CareTemplate {
  readonly name: string;
  readonly steps: readonly CareStep[];
}

/** Events of a spawn that a step may follow whether or not the template has a step for them. */
export const spawnEvents = [
  'decided',
  'conditioning',
  'side_by_side',
  'introduced',
  'nest',
  'released',
  'spawned',
  'dam_out',
  'eyed',
  'hatched',
  'free_swimming',
  'sire_out',
  'first_food',
  'moved',
  'helpers',
  'jarred',
  'sorted',
  'finished',
  'failed',
] as const;
export type SpawnEventId = (typeof spawnEvents)[number];

const events: ReadonlySet<string> = new Set(spawnEvents);

export const isSpawnEvent = (id: string): id is SpawnEventId => events.has(id);

/** Events that end every plan. */
export const endings: readonly SpawnEventId[] = ['failed', 'finished'];

export const earliestOf = (timing: CareTiming): number => timing.earliest ?? timing.hours;
export const latestOf = (timing: CareTiming): number => timing.latest ?? timing.hours;
