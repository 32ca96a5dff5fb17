import type { VesselKind } from '../stock/rows/vessel.entity.js';
import { kindOfName, plainCode } from '../stock/vessel-codes.js';
import type { ReadFish } from './fish-row.js';
import type { ImportNote } from './import-problem.js';
import type { RecordedStock } from './recorded-stock.js';

/** As far as it has to be known of a fish of the file. */
interface NewFish {
  readonly id: string;
  readonly tag: string;
  readonly disposition: string;
  readonly swimsWithId: string | null;
}

export interface PlannedVessel {
  readonly id: string;
  readonly code: string;
  readonly kind: VesselKind;
}

export interface PlannedStay {
  readonly id: string;
  readonly vesselId: string;
  readonly fishId: string;
}

const HERE: ReadonlySet<string> = new Set(['unsorted', 'keeper', 'hold', 'placed']);

/** Several in one vessel: written down as the file has it, and said. */
const sharedNote = (
  { line, vessel }: ReadFish,
  header: string | null,
  tags: readonly string[],
): ImportNote => ({
  ...{ line, column: header, code: 'IMPORT_VESSEL_SHARED', value: vessel, remedy: '' },
  message: `${tags.length} fish would be in ${vessel}: ${tags.slice(0, 4).join(', ')}${tags.length > 4 ? ' and more' : ''}. It is recorded as the file has it; fighting fish that reach each other can kill each other.`,
});

/**
 * The vessels that new fish of the file are in: those on record, however they are spelt, and those to be made. Only of fish that are
 * alive here. Pure; cost linear in rows.
 */
export const planVessels = (
  rows: readonly ReadFish[],
  fish: readonly NewFish[],
  stock: RecordedStock,
  newId: () => string,
  header: string | null,
): { vessels: PlannedVessel[]; stays: PlannedStay[]; notes: ImportNote[] } => {
  const byTag = new Map(fish.map((one) => [one.tag, one]));
  const ids = new Map([...stock.vessels].map(([code, { id }]) => [code, id]));
  const vessels: PlannedVessel[] = [];
  const stays: PlannedStay[] = [];
  const together = new Map<string, { row: ReadFish; tags: string[] }>();
  for (const row of rows) {
    const one = byTag.get(row.tag);
    if (row.vessel === null || one === undefined) continue;
    if (!HERE.has(one.disposition) || one.swimsWithId !== stock.personId) continue;
    const key = plainCode(row.vessel);
    const vesselId = ids.get(key) ?? newId();
    if (!ids.has(key)) {
      ids.set(key, vesselId);
      vessels.push({ id: vesselId, code: row.vessel, kind: kindOfName(row.vessel) });
    }
    stays.push({ id: newId(), vesselId, fishId: one.id });
    const before = together.get(key) ?? { row, tags: [...(stock.vessels.get(key)?.tags ?? [])] };
    before.tags.push(row.tag);
    together.set(key, before);
  }
  const notes = [...together.values()]
    .filter(({ tags }) => tags.length > 1)
    .map(({ row, tags }) => sharedNote(row, header, tags));
  return { vessels, stays, notes };
};
