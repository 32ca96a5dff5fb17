import type { EntityManager } from 'typeorm';
import {
  PasskeyChallengeRow,
  PasskeyRow,
  ProgramTokenRow,
  SecondStepRow,
  SpareCodeRow,
} from '../stock/rows/way-in.entity.js';
import { SessionRow } from '../stock/rows/person.entity.js';

/** Ends every session of a person and whatever else they come in by, but their password. */
export const endWaysIn = async (m: EntityManager, personId: string): Promise<void> => {
  const all = [
    ...[SessionRow, SecondStepRow, SpareCodeRow],
    ...[PasskeyRow, PasskeyChallengeRow, ProgramTokenRow],
  ];
  for (const rows of all) await m.delete(rows, { personId });
};
