import type { ScoreScale } from '@linewright/merit';
import { daySlip, timeSlip, timeSlipText } from '../clock/expect-happened.js';
import { RequestError } from '../errors/request-error.js';
import { scoreProblem } from '../stock/valid-score.js';
import type { SharedKind } from './share-fields.js';
import type { SharedRecord } from './share-record.js';
import type { SharePlanItem } from './share-plan.js';

/** The latest day and time at which something can have happened, wherever the sender is. */
export interface LatestMoment {
  readonly day: string;
  readonly time: Date;
}

interface Slip {
  readonly field: string;
  readonly value: unknown;
  /** After the value. */
  readonly problem: string;
}

const slipOfTime = (
  { kind, record }: SharePlanItem,
  { day, time }: LatestMoment,
): Slip | undefined => {
  for (const { name: field, happened } of kind.fields) {
    const value = record[field] as string | null;
    if (happened === null || value === null) continue;
    const slip = happened === 'day' ? daySlip(value, day) : timeSlip(new Date(value), time);
    if (slip !== null) return { field, value, problem: `is ${timeSlipText[slip]}` };
  }
  return undefined;
};

const slipOfScore = (
  { kind, record }: SharePlanItem,
  traits: ReadonlyMap<string, SharedRecord>,
): Slip | undefined => {
  const trait = kind.group === 'scores' ? traits.get(record['traitId'] as string) : undefined;
  if (trait === undefined) return undefined;
  const value = record['value'] as number;
  const present = record['traitVersion'] === trait['version'];
  const problem = scoreProblem(trait as unknown as ScoreScale, value, present);
  return problem === null ? undefined : { field: 'value', value, problem };
};

/**
 * Holds what a file would write to the rules of the forms: what a value of a trait may be, and that what happened has happened. A
 * record that was withdrawn or corrected may be what it is; so may one that stands here already.
 *
 * @param traits by id, as they will stand here
 * @throws RequestError `SHARE_INVALID` with the first record that breaks a rule
 */
export const expectRules = (
  items: readonly SharePlanItem[],
  traits: ReadonlyMap<string, SharedRecord>,
  latest: LatestMoment,
  labelOf: (kind: SharedKind, record: SharedRecord) => string,
): void => {
  const standing = items.filter(({ record }) => record['withdrawnAt'] === null);
  const corrected = new Set(standing.map(({ record }) => record['correctsId']));
  for (const item of standing) {
    const { kind, record, outcome } = item;
    const isWritten = outcome === 'added' || outcome === 'updated';
    if (!isWritten || corrected.has(record.id)) continue;
    const slip = slipOfTime(item, latest) ?? slipOfScore(item, traits);
    if (slip === undefined) continue;
    throw new RequestError(
      'SHARE_INVALID',
      `Nothing was taken in: the ${kind.kind.replaceAll('_', ' ')} "${labelOf(kind, record)}" has a "${slip.field}" that cannot be: "${String(slip.value)}" ${slip.problem} Ask your partner to correct it and to send the line again.`,
      { recordId: record.id },
    );
  }
};
