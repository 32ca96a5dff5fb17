import { HOUR } from '../time-units.js';
import type { CareRecord } from './plan-shapes.js';
import type { SpawnEventId } from './template.js';

/** What a brood goes through, one after the other, without exception. */
const development: readonly SpawnEventId[] = [
  'spawned',
  'eyed',
  'hatched',
  'free_swimming',
  'jarred',
  'sorted',
];

/** Where only the day is known, in whatever zone, the hour can be off by so much. */
export const DAY_ONLY_SLACK = 26 * HOUR;

/** Two events recorded in an order that no brood goes through: `earlier` was recorded for a time after `later`. */
export interface OutOfOrder<Kept extends CareRecord = CareRecord> {
  readonly earlier: Kept;
  readonly later: Kept;
}

/**
 * Events of a brood's development whose times contradict one another, such as fry that swam before they hatched. The plan
 * copes with any order; one of the two times is wrong all the same. Of several records of an event the first counts.
 *
 * Cost: linear in the records.
 * @example outOfOrder(log).map(({ earlier, later }) => `${later.step} before ${earlier.step}`)
 */
export const outOfOrder = <Kept extends CareRecord>(
  records: readonly Kept[],
): OutOfOrder<Kept>[] => {
  const happened = development.flatMap((step) => {
    const of = records.filter((record) => record.step === step && record.action !== 'skipped');
    const first = of.reduce<Kept | undefined>(
      (a, b) => (a === undefined || b.at < a.at ? b : a),
      undefined,
    );
    return first === undefined ? [] : [first];
  });
  return happened.slice(1).flatMap((later, i) => {
    const earlier = happened[i];
    if (earlier === undefined) return [];
    const slack = earlier.dayOnly === true || later.dayOnly === true ? DAY_ONLY_SLACK : 0;
    return later.at + slack < earlier.at ? [{ earlier, later }] : [];
  });
};
