import type { PairingSettingsInput } from '@linewright/mating';
import type { EntityManager } from 'typeorm';
import type { CandidateRow } from '../stock/candidate-rows.js';
import { newestPurposes, wholePurpose } from '../stock/purpose-rows.js';

/** What the lines of these fish say of ages, rests, sizes and F, by line; a line that says nothing has no entry. */
export const settingsOfLines = async (
  manager: EntityManager,
  rows: readonly CandidateRow[],
): Promise<Record<string, PairingSettingsInput>> => {
  const ids = new Set(rows.flatMap(({ lineId }) => lineId ?? []));
  const said = await newestPurposes(manager, [...ids]);
  return Object.fromEntries(
    [...said].map(([id, row]) => {
      const { ceiling, rules } = wholePurpose(row);
      return [id, { inbreedingCeiling: ceiling, ...rules }];
    }),
  );
};
