import type { SharedKind } from './share-fields.js';
import type { SharedRecord } from './share-record.js';
import type { SharedSheetVersion } from './share-json.js';
import type { SharePlanItem } from './share-plan.js';

/** Versions of a sheet that the two sides do not have alike, by number. */
const versionsApart = ({ said, local }: SharePlanItem): number[] => {
  const theirs = said['versions'] as SharedSheetVersion[];
  const ours = (local?.['versions'] ?? []) as SharedSheetVersion[];
  return theirs
    .filter((version, index) => JSON.stringify(version) !== JSON.stringify(ours[index]))
    .map(({ version }) => version);
};

/** A version is written once: a number that stands for something else on each side cannot be settled by taking theirs. */
const settled = (item: SharePlanItem): SharePlanItem => {
  if (item.kind.group !== 'scoreSheets') return item;
  if (item.outcome !== 'updated' && item.apart.length === 0) return item;
  const ours = (item.local?.['versions'] ?? []) as SharedSheetVersion[];
  return versionsApart(item).some((number) => number <= ours.length)
    ? { ...item, outcome: 'conflict', met: null, apart: [] }
    : item;
};

const lociOf = (record: SharedRecord): unknown[] => [
  record['locusId'],
  ...((record['locusIds'] ?? []) as unknown[]),
];

/**
 * Leaves out new and changed records that rest on something of the file that is not taken in: on a record that is left out already or clashes
 * with another one here, on a locus that is defined otherwise here under the same name, or on a version of a score sheet that
 * means something else here. Each becomes a conflict that names what it rests on.
 *
 * Cost: the items times the length of the longest chain of such records, which is short.
 */
export const leaveOut = (
  planned: readonly SharePlanItem[],
  labelOf: (kind: SharedKind, record: SharedRecord) => string,
): SharePlanItem[] => {
  const items = planned.map(settled);
  const gone = new Map<string, string>();
  const loci = new Map<unknown, string>();
  const sheets = new Map<string, Set<number>>();
  for (const item of items) {
    const { kind, record, said, local, outcome } = item;
    if (kind.group === 'scoreSheets') {
      const taken = outcome === 'added' || outcome === 'updated';
      const all = (said['versions'] as unknown[]).length;
      const apart = new Set(taken ? [] : versionsApart(item));
      for (let number = 1; number <= all; number++)
        if (!apart.has(number))
          sheets.set(record.id, (sheets.get(record.id) ?? new Set()).add(number));
    }
    if ((item.clashesWith === null && item.leftOutWith === null) || local !== null) continue;
    const label = `${kind.kind.replaceAll('_', ' ')} ${labelOf(kind, record)}`;
    gone.set(record.id, label);
    if (kind.group === 'ownLoci') loci.set(record['locusId'], label);
  }
  const restsOn = ({ kind, record }: SharePlanItem): string | null => {
    for (const { name, pointsTo, idsIn } of kind.fields) {
      const id = record[name];
      if (pointsTo !== undefined && idsIn === undefined && gone.has(id as string))
        return gone.get(id as string) ?? null;
    }
    if (kind.group !== 'ownLoci')
      for (const id of lociOf(record)) if (loci.has(id)) return loci.get(id) ?? null;
    if (kind.group !== 'sheetScorings') return null;
    const known = sheets.get(record['sheetId'] as string);
    const number = record['sheetVersion'] as number;
    return known === undefined || known.has(number) ? null : `version ${number} of its score sheet`;
  };
  for (let changed = true; changed;) {
    changed = false;
    for (const [index, item] of items.entries()) {
      if (item.outcome !== 'added' && item.outcome !== 'updated') continue;
      const label = restsOn(item);
      if (label === null) continue;
      items[index] = { ...item, outcome: 'conflict', met: null, apart: [], leftOutWith: label };
      if (item.local === null) gone.set(item.record.id, label);
      changed = true;
    }
  }
  return items;
};
