import type { PedigreeSlice } from '../../api/fish.js';
import type { PlannedBrood } from '../../api/pairings.js';
import type { PlannedBrood as DrawnBrood } from '../../drawings/index.js';
import { dispositionWord, type Sex } from '../../wording/words.js';

export const drawnSex: Record<Sex, 'male' | 'female' | 'unknown'> = {
  MALE: 'male',
  FEMALE: 'female',
  UNSEXED: 'unknown',
  UNCERTAIN: 'unknown',
};

export const drawnBasis = { KNOWN: 'known', AT_LEAST: 'at-least', UNKNOWN: 'unknown' } as const;

const gone: readonly string[] = ['CULLED', 'PLACED', 'DIED', 'ELSEWHERE'];
const dead: readonly string[] = ['CULLED', 'DIED'];

/** A slice of the pedigree in the shape the drawing takes. */
export function drawnFish(slice: PedigreeSlice) {
  return slice.fish.map((fish) => ({
    id: fish.id,
    // Its young say of which spawn; the whole name has no room in a drawing.
    tag:
      fish.unknownParentOf === null ? fish.tag : `unknown ${fish.sex === 'MALE' ? 'sire' : 'dam'}`,
    sex: drawnSex[fish.sex],
    sireId: fish.sireId,
    damId: fish.damId,
    spawnId: fish.spawnId,
    inbreeding: fish.inbreedingCoefficient,
    basis: drawnBasis[fish.inbreedingBasis],
    unknownParent: fish.unknownParentOf !== null,
    note:
      fish.unknownParentOf === null && gone.includes(fish.disposition)
        ? dispositionWord[fish.disposition]
        : null,
    dead: dead.includes(fish.disposition),
    pageless: !fish.recordShown && fish.unknownParentOf === null,
  }));
}

/** The brood of a pair, to be drawn as one that is not bred yet. */
export const drawnBrood = ({
  sire,
  dam,
  inbreedingCoefficient,
  inbreedingBasis,
}: Pick<
  PlannedBrood,
  'sire' | 'dam' | 'inbreedingCoefficient' | 'inbreedingBasis'
>): DrawnBrood => ({
  sireId: sire.id,
  damId: dam.id,
  label: `${sire.tag} × ${dam.tag}`,
  inbreeding: inbreedingCoefficient,
  basis: drawnBasis[inbreedingBasis],
});

/** Where a drawn fish leads to: its own page, or of a parent that nobody knows the page of its spawn. */
export function drawnPath(slice: PedigreeSlice, id: string, part = ''): string {
  const spawnId = slice.fish.find((one) => one.id === id)?.unknownParentOf ?? null;
  return spawnId === null ? `/fish/${id}${part}` : `/spawns/${spawnId}`;
}
