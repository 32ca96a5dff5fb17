import type { EntityManager } from 'typeorm';
import { keepersOfLines } from '../stock/shared-rows.js';
import type { SharedKind } from './share-fields.js';
import type { SharedRecord } from './share-record.js';

/** Whether a file may say that a record is somebody else's from now on. */
export type MayPass = (kind: SharedKind, local: SharedRecord, said: SharedRecord) => boolean;

/**
 * Fish that went between two others: whose such a fish was says who has it, or whose its line is. A fish of whoever is here goes and
 * comes by a hand-over that they confirm, and by nothing else. Work: a statement.
 *
 * @param sender whose install signed the file, when it is paired with this one; `null`: nothing passes
 */
export const fishPassedBy = async (
  manager: EntityManager,
  sender: string | null,
): Promise<MayPass> => {
  if (sender === null) return () => false;
  const { here, lines } = await keepersOfLines(manager);
  return (kind, local, said) => {
    if (kind.group !== 'fish') return false;
    const [before, after] = [local['personId'], said['personId']];
    if (before === here || after === here) return false;
    return before === sender || lines.get(local['lineId'] as string) === sender;
  };
};
