const DAY_MS = 86_400_000;

/** Whole days since 1970-01-01 for a date `YYYY-MM-DD`. */
export function dayOf(date: string): number {
  const milliseconds = Date.parse(`${date}T00:00:00Z`);
  if (!/^\d{4}-\d{2}-\d{2}$/.test(date) || Number.isNaN(milliseconds)) {
    throw new RangeError(`"${date}" is not a date written YYYY-MM-DD.`);
  }
  return milliseconds / DAY_MS;
}

export function dateOf(day: number): string {
  return new Date(day * DAY_MS).toISOString().slice(0, 10);
}

/** ISO time on a day, at an hour that may have a fraction. */
export function timeOf(day: number, hour: number): string {
  return new Date(day * DAY_MS + Math.round(hour * 60) * 60_000).toISOString();
}
