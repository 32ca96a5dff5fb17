import { DAY, HOUR } from '@linewright/care';
import type { CareTask } from '../../api/care.js';
import { dayText } from '../../wording/care-words.js';
import { plural } from '../../wording/figures.js';
import { saidOnce } from '../../wording/said-once.js';
import { capital } from '../../wording/words.js';

export interface TaskGroup {
  readonly key: string;
  readonly title: string;
  readonly tasks: readonly CareTask[];
}

/** A window that stays open for days is no matter of today. */
const staysOpen = (task: CareTask, now: number): boolean =>
  task.state === 'DUE' && Date.parse(task.to) - now > 2 * DAY;

/** What has a narrow window presses until it is done, such as taking the dam out; the rest can wait once it is days late. */
const NARROW = 12 * HOUR;
const longOverdue = (task: CareTask, now: number): boolean =>
  task.state === 'OVERDUE' &&
  now - Date.parse(task.to) > DAY &&
  Date.parse(task.to) - Date.parse(task.from) > NARROW;

const closes = (task: CareTask): number => Date.parse(task.to);

/** What is to be done now, what has waited long, then later today, the days to come, and last what may be done any day now. */
export function byTime(tasks: readonly CareTask[], today: string, now: number): TaskGroup[] {
  const of = (key: string, title: string, wanted: (task: CareTask) => boolean): TaskGroup => ({
    key,
    title,
    tasks: tasks.filter(wanted),
  });
  const isLong = (task: CareTask) => longOverdue(task, now);
  const isNow = (task: CareTask) =>
    task.state !== 'UPCOMING' && !isLong(task) && !staysOpen(task, now);
  const days = [...new Set(tasks.map((task) => task.day))].filter((day) => day > today).sort();
  const first = of('now', 'Now', isNow);
  const long = of('overdue', 'Overdue for more than a day', isLong);
  return [
    { ...first, tasks: first.tasks.toSorted((a, b) => closes(a) - closes(b)) },
    // The latest first: what is a week late can wait another hour.
    { ...long, tasks: long.tasks.toSorted((a, b) => closes(b) - closes(a)) },
    of('today', 'Later today', (task) => task.state === 'UPCOMING' && task.day <= today),
    ...days.map((day) => of(day, capital(dayText(day)), (task) => task.day === day)),
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

/** "2 overdue, 3 spawns under way". */
export function dueWords(tasks: readonly Pick<CareTask, 'state' | 'spawn'>[]): string {
  const overdue = tasks.filter((task) => task.state === 'OVERDUE').length;
  const spawns = new Set(tasks.map((task) => task.spawn.id)).size;
  return `${overdue === 0 ? 'Nothing overdue' : `${overdue} overdue`}, ${plural(spawns, 'spawn')} under way`;
}

/** A step that is far off yet does not warn of what comes with it. */
export const showsCaution = (task: CareTask): boolean => task.state !== 'UPCOMING';

/** By id of a task: that of the first one above it on the screen with the same caution, or null where it is the first. */
export const cautionsBefore = (
  groups: readonly TaskGroup[],
): ReadonlyMap<string, string | null> => {
  const cautious = groups
    .flatMap(({ tasks }) => tasks)
    .filter((task) => showsCaution(task) && task.step.caution !== null);
  const said = saidOnce(cautious.map(({ id, step }) => ({ key: id, texts: [step.caution ?? ''] })));
  return new Map([...said].map(([id, { before }]) => [id, before]));
};
