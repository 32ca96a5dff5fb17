import { daysBetween } from '@linewright/care';

const DAILY = /^linewright-(\d{4}-\d\d-\d\d)-\d{6}-daily\.zip$/;

export const DAYS_KEPT = 7;
export const WEEKS_KEPT = 4;

/** What a backup is called, by day and time where the owner is: `linewright-2026-03-14-081500.zip`. */
export const backupName = (day: string, time: string, daily: boolean): string =>
  `linewright-${day}-${time.replaceAll(':', '')}${daily ? '-daily' : ''}.zip`;

/** True for names that {@link backupName} gives. */
export const isBackupName = (name: string): boolean =>
  /^linewright-\d{4}-\d\d-\d\d-\d{6}(-daily)?\.zip$/.test(name);

/** Number of a day's week, Monday to Sunday, counted from the first Monday of 1970. */
const weekOf = (day: string): string => String(Math.floor(daysBetween('1970-01-05', day) / 7));

/**
 * Which of the files in a folder have had their time: of the daily backups stay the newest of each of the last {@link DAYS_KEPT}
 * days that have one, and the newest of each of the last {@link WEEKS_KEPT} weeks that have one. Backups that somebody asked for,
 * and all other files, stay.
 */
export const outdated = (names: readonly string[]): readonly string[] => {
  const daily = names
    .filter((name) => DAILY.test(name))
    .sort()
    .reverse();
  const newestOfEach = (groupOf: (day: string) => string, most: number): string[] => {
    const kept = new Map<string, string>();
    for (const name of daily) {
      const group = groupOf(DAILY.exec(name)?.[1] ?? '');
      if (!kept.has(group) && kept.size < most) kept.set(group, name);
    }
    return [...kept.values()];
  };
  const stay = new Set([
    ...newestOfEach((day) => day, DAYS_KEPT),
    ...newestOfEach(weekOf, WEEKS_KEPT),
  ]);
  return daily.filter((name) => !stay.has(name));
};
