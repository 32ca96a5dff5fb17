import type { PairingRow } from '../../api/pairings.js';
import type { PedigreeFish, PlannedBrood } from '../../drawings/index.js';
import { drawnBasis, drawnSex } from './drawn-fish.js';

type Planned = Pick<
  PairingRow,
  'id' | 'sire' | 'dam' | 'inbreedingCoefficient' | 'inbreedingBasis'
>;

/** A drawing of a fish with the broods that are planned with it; a mate that is not drawn yet stands beside it. */
export function withPlannedPairings(
  fishId: string,
  drawn: readonly PedigreeFish[],
  pairings: readonly Planned[],
): { fish: readonly PedigreeFish[]; planned: readonly PlannedBrood[] } {
  const own = pairings.filter(({ sire, dam }) => sire.id === fishId || dam.id === fishId);
  const known = new Set(drawn.map(({ id }) => id));
  const mates = new Map(
    own
      .flatMap(({ sire, dam }) => [sire, dam])
      .filter(({ id }) => !known.has(id))
      .map(({ id, tag, sex }): [string, PedigreeFish] => [
        id,
        { id, tag, sex: drawnSex[sex], sireId: null, damId: null },
      ]),
  );
  return {
    fish: [...drawn, ...mates.values()],
    planned: own.map(({ id, sire, dam, inbreedingCoefficient, inbreedingBasis }) => ({
      id: `planned-${id}`,
      sireId: sire.id,
      damId: dam.id,
      label: `${sire.tag} × ${dam.tag}`,
      inbreeding: inbreedingCoefficient,
      basis: drawnBasis[inbreedingBasis],
    })),
  };
}
