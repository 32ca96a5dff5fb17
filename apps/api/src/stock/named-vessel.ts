import { randomUUID } from 'node:crypto';
import type { EntityManager } from 'typeorm';
import { oneAtATime } from '../database/one-at-a-time.js';
import type { RecordStore } from './record-store.js';
import { vesselRecord } from './record-types.js';
import type { VesselRow } from './rows/vessel.entity.js';
import { kindOfName, plainCode } from './vessel-codes.js';
import { vesselWithCode } from './vessel-rows.js';

/** Of two that make or rename a vessel of that code at once, the second sees the first. */
export const holdCode = (m: EntityManager, personId: string, code: string): Promise<void> =>
  oneAtATime(m, `vessel ${personId} ${plainCode(code)}`);

/** The person's vessel of that name, however it is spelt; made where there is none. */
export const vesselNamed = async (
  m: EntityManager,
  records: RecordStore,
  { id: personId, name: by }: { readonly id: string; readonly name: string },
  code: string,
): Promise<VesselRow> => {
  await holdCode(m, personId, code);
  const found = await vesselWithCode(m, personId, code);
  if (found !== null) return found;
  const row = { id: randomUUID(), personId, code, kind: kindOfName(code) };
  return records.create<VesselRow>(m, vesselRecord, row, by);
};
