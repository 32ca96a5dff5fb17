import { CareError } from '../care-error.js';
import type { DayOfLives } from './kaplan-meier.js';

/** Young counted, with the day as days since any fixed day (the same for all of one brood). */
export interface BroodCount {
  readonly day: number;
  readonly number: number;
  /** Words for the warnings, such as "jarred". */
  readonly label: string;
}

/** Fish that left the brood. */
export interface BroodDeparture {
  readonly day: number;
  readonly number: number;
  readonly kind: 'died' | 'culled' | 'placed';
}

export interface BroodRecord {
  /** The count the curve starts from. */
  readonly start: BroodCount;
  readonly counts: readonly BroodCount[];
  readonly departures: readonly BroodDeparture[];
}

export type BroodWarningCode =
  /** More fish were counted than can be left. */
  | 'COUNT_ROSE'
  /** More were recorded as lost than there were. */
  | 'MORE_LOST_THAN_THERE';

export interface BroodWarning {
  readonly code: BroodWarningCode;
  /** Days since the start. */
  readonly day: number;
  readonly message: string;
}

/** One day of a brood, with deaths and culls kept apart. */
export interface BroodDay {
  /** Days since the start. */
  readonly day: number;
  /** Recorded as died. */
  readonly died: number;
  /** Missing at a count with no record of why: they died, or were miscounted, after `since`. */
  readonly missing: number;
  readonly culled: number;
  /** Placed or moved alive. */
  readonly placed: number;
  /** Day of the count before, for what is missing: nobody knows on which day between. `null` when nothing is. */
  readonly since: number | null;
}

export interface BroodLives {
  readonly started: number;
  readonly days: readonly BroodDay[];
  /** Alive and still watched at the end, and the last day anything was recorded. */
  readonly left: number;
  readonly lastDay: number;
  readonly warnings: readonly BroodWarning[];
}

/**
 * Turns a brood's dated counts and departures into lives: who died, was culled or left alive on which day.
 *
 * Departures of a day come before a count of the same day, so the starting count already allows for that day's losses;
 * another count of that day is of a later stage, and what it lacks was lost on the day. What a count shows missing beyond the recorded departures counts as deaths found on the day of the count. A
 * count that is higher than what can be left changes nothing and is told as a warning: a brood does not grow. Losses
 * beyond the fish there are cut off, and told. Nothing after `untilDay` (days since the start) is looked at.
 *
 * @throws CareError CARE_BAD_COUNT for a number that is not whole or below 0.
 */
export function broodLives(record: BroodRecord, untilDay = Infinity): BroodLives {
  const origin = record.start.day;
  for (const { label, number } of [record.start, ...record.counts]) expectNumber(label, number);
  for (const { kind, number } of record.departures) expectNumber(kind, number);
  const within = ({ day }: { readonly day: number }) => day >= origin && day - origin <= untilDay;
  const counts = record.counts.filter(within);
  const departures = record.departures.filter((one) => within(one) && one.day > origin);
  const dates = [...new Set([...counts, ...departures].map((one) => one.day))].sort(
    (a, b) => a - b,
  );
  const watch = new Watch(record.start.number);
  for (const date of dates) {
    watch.departures(
      date - origin,
      departures.filter((one) => one.day === date),
    );
    // Several counts on one day: the lowest cannot be passed.
    const [lowest] = counts.filter((one) => one.day === date).sort((a, b) => a.number - b.number);
    if (lowest !== undefined) watch.count(date - origin, lowest);
  }
  return watch.lives();
}

function expectNumber(what: string, number: number): void {
  if (Number.isInteger(number) && number >= 0) return;
  throw new CareError(
    'CARE_BAD_COUNT',
    `${number} ${what} is not a number of fish: give a whole number of 0 or more.`,
    { number },
  );
}

/** Goes through a brood's days in order. */
class Watch {
  private left: number;
  private countedOn = 0;
  private lastDay = 0;
  private readonly days = new Map<number, BroodDay>();
  private readonly warnings: BroodWarning[] = [];

  constructor(private readonly started: number) {
    this.left = started;
  }

  departures(day: number, departures: readonly BroodDeparture[]): void {
    // Deaths first: fish placed or culled that day were alive on it.
    for (const kind of ['died', 'culled', 'placed'] as const) {
      const number = departures
        .filter((one) => one.kind === kind)
        .reduce((sum, one) => sum + one.number, 0);
      if (number === 0) continue;
      if (number > this.left) {
        this.warnings.push({
          code: 'MORE_LOST_THAN_THERE',
          day,
          message: `${number} recorded as ${kind} on day ${day} when only ${this.left} can have been left: counted as ${this.left}. Withdraw the loss or the count that is wrong and record it again.`,
        });
      }
      this.add(day, kind, Math.min(number, this.left), null);
    }
    this.lastDay = Math.max(this.lastDay, day);
  }

  count(day: number, { number, label }: BroodCount): void {
    if (number > this.left) {
      this.warnings.push({
        code: 'COUNT_ROSE',
        day,
        message: `${number} counted (${label}) on day ${day} when at most ${this.left} can have been left: the curve keeps ${this.left}. This count is wrong, or a count or loss before it: withdraw that one and record it again.`,
      });
    }
    if (number < this.left) this.add(day, 'missing', this.left - number, this.countedOn);
    this.countedOn = day;
    this.lastDay = Math.max(this.lastDay, day);
  }

  lives(): BroodLives {
    return {
      started: this.started,
      days: [...this.days.values()],
      left: this.left,
      lastDay: this.lastDay,
      warnings: this.warnings,
    };
  }

  private add(
    day: number,
    field: 'died' | 'missing' | 'culled' | 'placed',
    number: number,
    since: number | null,
  ): void {
    const held = this.days.get(day) ?? {
      day,
      died: 0,
      missing: 0,
      culled: 0,
      placed: 0,
      since: null,
    };
    this.days.set(day, { ...held, [field]: held[field] + number, since: since ?? held.since });
    this.left -= number;
  }
}

/**
 * Two readings of a brood, never mixed: `all-losses` counts a cull as a loss; `deaths-only` takes culled fish out of watch
 * alive. The second tells of deaths alone only as far as the culled fish would have died like the rest; where the weak are
 * culled it flatters the brood.
 */
export type CullReading = 'all-losses' | 'deaths-only';

/** Days for {@link kaplanMeier}, with the fish still there taken out of watch on the last day. */
export function livesForEstimate(lives: BroodLives, reading: CullReading): DayOfLives[] {
  const days = lives.days.map(({ day, died, missing, culled, placed }) => ({
    day,
    deaths: died + missing + (reading === 'all-losses' ? culled : 0),
    withdrawn: placed + (reading === 'deaths-only' ? culled : 0),
  }));
  return lives.left === 0
    ? days
    : [...days, { day: lives.lastDay, deaths: 0, withdrawn: lives.left }];
}
