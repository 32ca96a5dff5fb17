import type { PedigreeSlice } from '../../api/fish.js';
import type { LineOutcross } from '../../api/outcross.js';
import type { PedigreeFish, PlannedBrood } from '../../drawings/index.js';
import { generationName } from '../../wording/outcross-words.js';
import { drawnBasis, drawnFish } from './drawn-fish.js';

/** Id in a drawing of a partner that is not on record. */
const DESCRIBED = 'described';

type BranchOf = Pick<LineOutcross, 'partner' | 'mate' | 'back' | 'basis' | 'backcrosses'>;

/** Each fish of some slices once; a parent that only one of them reaches is known to all. */
export function joinedFish(slices: readonly PedigreeSlice[]): PedigreeFish[] {
  const joined = new Map<string, PedigreeFish>();
  for (const fish of slices.flatMap(drawnFish)) {
    const before = joined.get(fish.id);
    joined.set(fish.id, {
      ...fish,
      sireId: fish.sireId ?? before?.sireId ?? null,
      damId: fish.damId ?? before?.damId ?? null,
    });
  }
  return [...joined.values()];
}

/** A partner that is not on record, drawn beside those that are. */
export const describedFish = (mateSex: string | undefined): PedigreeFish => ({
  id: DESCRIBED,
  tag: 'not on record',
  sex: mateSex === 'MALE' ? 'female' : 'male',
  sireId: null,
  damId: null,
});

/** The cross and its backcrosses, each the young of the one before. */
export function branchOf({ partner, mate, back, basis, backcrosses }: BranchOf): PlannedBrood[] {
  if (mate === null || back === null || backcrosses === null) return [];
  const partnerId = partner?.id ?? DESCRIBED;
  return backcrosses.generations.map(({ generation, inbreeding }) => {
    const [known, other] = generation === 1 ? [mate, partnerId] : [back, idOf(generation - 1)];
    const male = known.sex === 'MALE';
    return {
      id: idOf(generation),
      sireId: male ? known.id : other,
      damId: male ? other : known.id,
      label: generationName(generation, 'back'),
      inbreeding,
      basis: drawnBasis[basis],
    };
  });
}

const idOf = (generation: number): string => `outcross-${generation}`;
