import type { PlannedStep } from '../../api/care.js';
import { happenedText, whenText } from '../../wording/care-words.js';
import { eventWord, type SpawnEventKind } from '../../wording/words.js';

const NEXT_SHOWN = 4;

const asks = (planned: PlannedStep): boolean =>
  ['DUE', 'OVERDUE', 'UPCOMING'].includes(planned.state);

/** What is likely to be next: overdue and due first, then what is expected soonest. */
export function nextSteps(steps: readonly PlannedStep[]): PlannedStep[] {
  const rank = { OVERDUE: 0, DUE: 1, UPCOMING: 2 } as Record<string, number>;
  return steps
    .filter((planned) => asks(planned) && planned.about !== null)
    .sort(
      (a, b) =>
        (rank[a.state] ?? 3) - (rank[b.state] ?? 3) ||
        Date.parse(a.about ?? '') - Date.parse(b.about ?? ''),
    )
    .slice(0, NEXT_SHOWN);
}

/** What the tap records, in the words of the log: a look that found nothing is not an event. */
export function tapTitle({ id, kind, title }: PlannedStep['step']): string {
  if (kind !== 'OBSERVE') return title;
  const event = eventWord[id.toUpperCase() as SpawnEventKind] as string | undefined;
  return event === undefined
    ? `Seen: ${title}`
    : `${event.slice(0, 1).toUpperCase()}${event.slice(1)}`;
}

/** What stands under it: when it is due, or that it is done. */
export function tapHint(planned: PlannedStep): string {
  const last = planned.records.at(-1);
  if (planned.state === 'DONE' && last !== undefined) return `✓ ${happenedText(last)}`;
  if (planned.state === 'OVERDUE' && planned.to !== null)
    return `overdue since ${whenText(planned.to)}`;
  if (planned.state === 'DUE' && planned.to !== null) return `until ${whenText(planned.to)}`;
  if (planned.state === 'SKIPPED') return 'skipped';
  if (planned.state === 'NO_LONGER') return 'not needed';
  return planned.about === null ? 'no time yet' : `about ${whenText(planned.about)}`;
}
