import type { LinePurpose } from './line-purpose.js';

type Days = Pick<LinePurpose, 'earliest' | 'latest'>;

/** The day that the pairs of a round are judged for: `today`, or the first day for pairs where that is still to come. ISO dates. */
export const dayForPairs = ({ earliest }: Days, today: string): string =>
  earliest !== null && earliest > today ? earliest : today;

/** Whether `day` is none of those on which the line makes pairs. */
export const isOutsideDays = ({ earliest, latest }: Days, day: string): boolean =>
  (earliest !== null && day < earliest) || (latest !== null && day > latest);
