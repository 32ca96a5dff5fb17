import { DAY, HOUR } from '@linewright/care';
import type { PlannedStep, SpawnCare } from '../../api/care.js';
import type { TimelineRow } from '../../drawings/index.js';

export type TimelineSpan = 'first days' | 'whole';

export interface Timeline {
  readonly rows: readonly TimelineRow[];
  readonly zero: number;
  readonly zeroLabel: string;
  readonly range: readonly [number, number];
}

const timeOf = (iso: string | null): number | null => (iso === null ? null : Date.parse(iso));

/** When an event was, as far as is known: as recorded, else as expected. */
const whenOf = (care: SpawnCare, event: string): number | null => {
  const logged = care.log.find((record) => record.step === event && record.action === 'DONE');
  if (logged !== undefined) return Date.parse(logged.at);
  return timeOf(care.steps.find((planned) => planned.step.id === event)?.about ?? null);
};

const rowOf = (care: SpawnCare, planned: PlannedStep): TimelineRow => {
  const [from, about, to] = [timeOf(planned.from), timeOf(planned.about), timeOf(planned.to)];
  const done = planned.records.find((record) => record.action === 'DONE');
  return {
    id: planned.step.id,
    label: planned.step.title,
    happened: timeOf(done?.at ?? null),
    expected: from === null || about === null || to === null ? null : { from, about, to },
    loose: planned.waitsFor.length > 0,
    published: planned.step.published.flatMap((figure) => {
      const zero = whenOf(care, figure.after);
      const unit = figure.unit === 'DAYS' ? DAY : HOUR;
      return zero === null
        ? []
        : [{ from: zero + figure.from * unit, to: zero + figure.to * unit }];
    }),
  };
};

/** Steps that happen once, in order of time, with day 0 at the spawning or, without one, at the decision to pair. */
export function timelineOf(care: SpawnCare, span: TimelineSpan, now: number): Timeline {
  const spawned = whenOf(care, 'spawned');
  const decided = whenOf(care, 'decided') ?? now;
  const known = care.log.some((record) => record.step === 'spawned');
  const zero = known && spawned !== null ? spawned : decided;
  const once = care.steps
    .filter(({ step }) => step.everyHours === null && !step.eachTime)
    // What went by unrecorded, or is not called for, has nothing to show.
    .filter(({ state, records }) => state !== 'NO_LONGER' || records.length > 0)
    .map((planned) => rowOf(care, planned));
  const times = once.flatMap(({ happened, expected }) =>
    [happened, expected?.about ?? null].filter((time) => time !== null),
  );
  const first = Math.min(zero, ...times);
  const range: [number, number] =
    span === 'whole'
      ? [first - DAY, Math.max(zero + DAY, ...times) + DAY]
      : known
        ? [zero - 2 * DAY, zero + 9 * DAY]
        : [zero - DAY, zero + 21 * DAY];
  const within = (time: number | null | undefined): boolean =>
    time != null && time >= range[0] && time <= range[1];
  const rows = once.filter(({ happened, expected }) => within(happened) || within(expected?.about));
  const at = (row: TimelineRow): number => row.happened ?? row.expected?.about ?? Infinity;
  return {
    rows: rows.sort((a, b) => at(a) - at(b)),
    zero,
    zeroLabel: known ? 'spawning' : 'the decision to pair',
    range,
  };
}
