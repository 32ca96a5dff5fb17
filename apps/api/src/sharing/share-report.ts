import type { RecordKind } from '../database/record-kind.js';
import { RequestError } from '../errors/request-error.js';
import type { ShareGroup } from './share-fields.js';
import type { ShareFile } from './share-file.js';
import { labeller } from './share-labels.js';
import { partsOf } from './share-parts.js';
import type { ShareOutcome, SharePlanItem } from './share-plan.js';

export interface ShareReportItem {
  readonly recordKind: RecordKind;
  readonly recordId: string;
  readonly label: string;
  readonly outcome: ShareOutcome;
  readonly changes: readonly { field: string; before: unknown; after: unknown }[];
}

export interface ShareReport {
  readonly senderName: string;
  readonly lineCode: string;
  readonly lineName: string;
  readonly added: number;
  readonly updated: number;
  readonly unchanged: number;
  readonly conflicts: number;
  readonly items: readonly ShareReportItem[];
  readonly applied: boolean;
}

const outcomeOrder: readonly ShareOutcome[] = [
  'conflict',
  'updated',
  'kept_local',
  'added',
  'unchanged',
];

/** Groups in which a clash leaves other records of the file without what they point to. */
const carrying: readonly ShareGroup[] = ['lines', 'traits', 'fish', 'spawns'];

/** @throws RequestError `SHARE_INVALID` where a record on which others rest has the name of another one here */
export const refuseClashes = (file: ShareFile, items: readonly SharePlanItem[]): void => {
  const clash = items.find(
    (item) =>
      item.clashesWith !== null && item.local === null && carrying.includes(item.kind.group),
  );
  if (clash === undefined) return;
  const label = labeller(file.records)(clash.kind, clash.record);
  throw new RequestError(
    'SHARE_INVALID',
    `Nothing was taken in: the ${clash.kind.kind} "${label}" of the file and another ${clash.kind.kind} recorded here have the same name and the same owner. Give one of the two another name.`,
    { recordId: clash.record.id, otherId: clash.clashesWith },
  );
};

const textOf = (value: unknown): string => (typeof value === 'string' ? value : '');

type ToldOutcome = Pick<ShareReportItem, 'outcome' | 'changes'>;

/** Fields of a record that both sides changed are a conflict; what else of it is taken is told beside that. */
const outcomesOf = (item: SharePlanItem): ToldOutcome[] => {
  const { kind, record, outcome, apart, changes, differences, clashesWith, leftOutWith } = item;
  if (leftOutWith !== null)
    return [{ outcome, changes: [{ field: 'restsOn', before: null, after: leftOutWith }] }];
  if (clashesWith !== null)
    return [{ outcome, changes: [{ field: 'id', before: clashesWith, after: record.id }] }];
  if (apart.length === 0 || outcome === 'added') return [{ outcome, changes: differences }];
  const fields = partsOf(kind).flatMap((part) => (apart.includes(part.name) ? part.fields : []));
  const conflicting = differences.filter(({ field }) =>
    fields.some((name) => field === name || field.startsWith(`${name} `)),
  );
  const conflict: ToldOutcome = { outcome: 'conflict', changes: conflicting };
  return outcome === 'updated' ? [conflict, { outcome, changes }] : [conflict];
};

/** What a file brings, or brought. */
export const shareReport = (
  file: ShareFile,
  items: readonly SharePlanItem[],
  applied: boolean,
): ShareReport => {
  const labelOf = labeller(file.records);
  const told = items.flatMap((item) =>
    outcomesOf(item).map((each) => ({
      recordKind: item.kind.kind,
      recordId: item.record.id,
      label: labelOf(item.kind, item.record),
      ...each,
    })),
  );
  const count = (...outcomes: ShareOutcome[]): number =>
    told.filter((item) => outcomes.includes(item.outcome)).length;
  const line = file.records.lines.find((l) => l.id === file.lineId);
  return {
    senderName: file.sender.name,
    lineCode: textOf(line?.['code']),
    lineName: textOf(line?.['name']),
    added: count('added'),
    updated: count('updated'),
    unchanged: count('unchanged', 'kept_local'),
    conflicts: count('conflict'),
    items: told.toSorted(
      (a, b) => outcomeOrder.indexOf(a.outcome) - outcomeOrder.indexOf(b.outcome),
    ),
    applied,
  };
};
