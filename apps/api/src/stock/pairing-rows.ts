import { type EntityManager, In } from 'typeorm';
import type { PairingState } from '../graphql/enums.js';
import { PairingRow } from './rows/pairing.entity.js';
import { thatStands } from './standing.js';

/** Pairings that stand, in these states or in any, of any maker or of one, the last planned first. */
export const pairingsByDay = (
  manager: EntityManager,
  states: readonly PairingState[] | null,
  makerId: string | null = null,
): Promise<PairingRow[]> =>
  manager.find(PairingRow, {
    where: {
      ...thatStands,
      ...(states !== null && { state: In(states) }),
      ...(makerId !== null && { makerId }),
    },
    order: { plannedOn: 'DESC', createdAt: 'DESC', id: 'ASC' },
  });

/** The pairing of these two that is planned and not yet spawned. */
export const plannedPairing = (
  manager: EntityManager,
  sireId: string,
  damId: string,
): Promise<PairingRow | null> =>
  manager.findOneBy(PairingRow, { sireId, damId, state: 'planned', ...thatStands });
