import { DAY } from '@linewright/care';
import type { PlannedStep, SpawnCare } from '../../api/care.js';
import type { SpawnFacts } from '../../api/spawns.js';
import { nextSteps } from './tap-words.js';

/** The one thing that a spawn asks for now. */
export type NextThing =
  | { readonly kind: 'sort' }
  | { readonly kind: 'log'; readonly step: PlannedStep }
  | { readonly kind: 'count' }
  | { readonly kind: 'photo' }
  /** Nothing now; what is expected next, where that is known. */
  | { readonly kind: 'wait'; readonly step: PlannedStep | null };

/** A brood is counted at about two weeks, when it can be: common practice. */
const COUNT_FROM = 14 * DAY;
/** So long after the last picture one more is worth taking: common practice. */
const PICTURE_AFTER = 14 * DAY;

interface Known {
  readonly spawn: Pick<SpawnFacts, 'hatchDate' | 'counts' | 'withdrawn' | 'fishCount'>;
  readonly care: Pick<SpawnCare, 'steps' | 'endedBy'>;
  /** Days on which pictures were taken, `YYYY-MM-DD`. */
  readonly pictured: readonly string[];
  /** Milliseconds since 1970. */
  readonly now: number;
}

const isAsked = ({ state }: PlannedStep): boolean => state === 'DUE' || state === 'OVERDUE';

const timeSince = (day: string, now: number): number => now - Date.parse(day);

/** Sorting before all, when it is time and there are fish to sort; then what the plan asks for, a count, a picture. `null`: it is over. */
export function nextThing({ spawn, care, pictured, now }: Known): NextThing | null {
  if (spawn.withdrawn !== null || care.endedBy !== null) return null;
  const sorting = care.steps.find(({ step }) => step.id === 'sorted');
  if (sorting !== undefined && isAsked(sorting) && spawn.fishCount > 0) return { kind: 'sort' };
  const steps = nextSteps(care.steps);
  const asked = steps.find(isAsked);
  if (asked !== undefined) return { kind: 'log', step: asked };
  const age = spawn.hatchDate === null ? 0 : timeSince(spawn.hatchDate, now);
  if (age >= COUNT_FROM && !spawn.counts.some(({ stage }) => counted.has(stage)))
    return { kind: 'count' };
  const last = [...pictured].sort().at(-1);
  if (age > 0 && (last === undefined || timeSince(last, now) >= PICTURE_AFTER))
    return { kind: 'photo' };
  return { kind: 'wait', step: steps[0] ?? null };
}

/** Stages from two weeks on. */
const counted: ReadonlySet<string> = new Set(['TWO_WEEKS', 'JARRED', 'SORTED']);
