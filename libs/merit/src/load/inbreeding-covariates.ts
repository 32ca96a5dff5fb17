import { inbreedingCoefficients, recentInbreeding } from '@linewright/kinship';
import { pedigreeFromArrays, type Pedigree } from '@linewright/pedigree';
import { MeritError } from '../merit-error.js';

/** Inbreeding behind broods, each a column for {@link inbreedingLoad}: one value a brood. */
export interface InbreedingColumn {
  readonly name: string;
  readonly values: readonly number[];
}

export interface BroodInbreeding {
  readonly young: InbreedingColumn;
  readonly dam: InbreedingColumn;
  /** The young's, split: what the latest generations alone give, and what comes from older ancestors. They add up to `young`. */
  readonly recent: InbreedingColumn;
  readonly old: InbreedingColumn;
}

/** Generations of ancestors whose inbreeding counts as recent: parents, grandparents and great-grandparents. */
export const RECENT_GENERATIONS = 3;

/**
 * Inbreeding of the young of each brood, recent and old apart, and of its dam. The young need no record of their own.
 *
 * Give the model young and dam, or recent and old and dam: young, recent and old together say the same twice.
 * Where to draw the line between recent and old is a choice; three generations is ours.
 * @param broods indices of sire and dam in the pedigree; -1 for an unknown one, whose young count as not inbred.
 * @throws MeritError MERIT_OUT_OF_RANGE. Cost: as {@link recentInbreeding}.
 */
export function broodInbreeding(
  pedigree: Pedigree,
  broods: readonly { readonly sire: number; readonly dam: number }[],
  generations = RECENT_GENERATIONS,
): BroodInbreeding {
  if (!(Number.isInteger(generations) && generations >= 1))
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      `${generations} generations cannot be told apart from older ones: give a whole number of at least 1.`,
      { generations },
    );
  for (const { sire, dam } of broods)
    for (const parent of [sire, dam])
      if (!(Number.isInteger(parent) && parent >= -1 && parent < pedigree.size))
        throw new MeritError(
          'MERIT_OUT_OF_RANGE',
          `There is no fish ${parent}; indices run from 0 to ${pedigree.size - 1}, -1 is unknown.`,
          { parent },
        );
  const withYoung = pedigreeFromArrays(
    Int32Array.from([...pedigree.sire, ...broods.map(({ sire }) => sire)]),
    Int32Array.from([...pedigree.dam, ...broods.map(({ dam }) => dam)]),
  );
  const young = broods.map((_, brood) => pedigree.size + brood);
  const split = recentInbreeding(withYoung, young, generations);
  const known = inbreedingCoefficients(pedigree);
  return {
    young: { name: 'F of the young', values: split.map(({ inbreeding }) => inbreeding) },
    dam: { name: 'F of the dam', values: broods.map(({ dam }) => (dam < 0 ? 0 : known[dam]!)) },
    recent: {
      name: `F of the young, last ${generations} generations`,
      values: split.map(({ recent }) => recent),
    },
    old: { name: 'F of the young, older', values: split.map(({ old }) => Math.max(0, old)) },
  };
}
