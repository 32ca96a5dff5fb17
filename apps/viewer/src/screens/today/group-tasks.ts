import { DAY } from '@linewright/care';
import type { CareTask } from '../../api/care.js';
import { dayText } from '../../wording/care-words.js';
import { capital } from '../../wording/words.js';

export interface TaskGroup {
  readonly key: string;
  readonly title: string;
  readonly tasks: readonly CareTask[];
}

/** A window that stays open for days is no matter of today. */
const staysOpen = (task: CareTask, now: number): boolean =>
  task.state === 'DUE' && Date.parse(task.to) - now > 2 * DAY;

/** Overdue, today, then the days to come, and last what may be done any day now. */
export function byTime(tasks: readonly CareTask[], today: string, now: number): TaskGroup[] {
  const of = (key: string, title: string, wanted: (task: CareTask) => boolean): TaskGroup => ({
    key,
    title,
    tasks: tasks.filter(wanted),
  });
  const later = [...new Set(tasks.map((task) => task.day))].filter((day) => day > today).sort();
  return [
    of('overdue', 'Overdue', (task) => task.state === 'OVERDUE'),
    of(
      'today',
      'Today',
      (task) => task.state !== 'OVERDUE' && task.day <= today && !staysOpen(task, now),
    ),
    ...later.map((day) => of(day, capital(dayText(day)), (task) => task.day === day)),
    of('open', 'Any day now', (task) => staysOpen(task, now)),
  ].filter((group) => group.tasks.length > 0);
}

/** By spawn, those with something overdue first; of a repeated step only its next time. */
export function bySpawn(tasks: readonly CareTask[]): TaskGroup[] {
  const groups = new Map<string, CareTask[]>();
  for (const task of tasks) {
    const group = groups.get(task.spawn.id) ?? [];
    groups.set(task.spawn.id, group);
    if (!group.some((other) => other.step.id === task.step.id)) group.push(task);
  }
  const late = (list: readonly CareTask[]): number =>
    list.filter((task) => task.state === 'OVERDUE').length;
  return [...groups.values()]
    .sort(
      (a, b) => late(b) - late(a) || (a[0]?.spawn.tag ?? '').localeCompare(b[0]?.spawn.tag ?? ''),
    )
    .map((list) => ({
      key: list[0]?.spawn.id ?? '',
      title: list[0]?.spawn.tag ?? '',
      tasks: list,
    }));
}
