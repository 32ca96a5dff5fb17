import type { PedigreeSlice } from '../../api/fish.js';
import { dispositionWord, type Sex } from '../../wording/words.js';

const drawnSex: Record<Sex, 'male' | 'female' | 'unknown'> = {
  MALE: 'male',
  FEMALE: 'female',
  UNSEXED: 'unknown',
  UNCERTAIN: 'unknown',
};

const gone: readonly string[] = ['CULLED', 'PLACED', 'DIED', 'ELSEWHERE'];
const dead: readonly string[] = ['CULLED', 'DIED'];

/** A slice of the pedigree in the shape the drawing takes. */
export function drawnFish(slice: PedigreeSlice) {
  return slice.fish.map((fish) => ({
    id: fish.id,
    tag: fish.tag,
    sex: drawnSex[fish.sex],
    sireId: fish.sireId,
    damId: fish.damId,
    spawnId: fish.spawnId,
    inbreeding: fish.inbreedingCoefficient,
    note: gone.includes(fish.disposition) ? dispositionWord[fish.disposition] : null,
    dead: dead.includes(fish.disposition),
  }));
}
