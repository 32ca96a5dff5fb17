import {
  type AlleleInLine,
  type BroodKeeping,
  type KeepingInput,
  whomToKeep,
} from '@linewright/mating';
import type { Pedigree } from '@linewright/pedigree';
import {
  pedigreeOfPart,
  pedigreePart,
  type PedigreePart,
  stateOfPart,
} from '../kinship/pedigree-part.js';

/** A brood to be gone through, with the fish it is about and their ancestors. It can pass between threads. */
export interface KeepingTask extends PedigreePart {
  readonly input: Omit<KeepingInput, 'pedigree'>;
}

export const keepingTask = (
  pedigree: Pedigree,
  input: Omit<KeepingInput, 'pedigree'>,
): KeepingTask => {
  const fish = [...input.young, ...input.mates].map(({ id }) => id);
  return { ...pedigreePart(pedigree, fish).part, input };
};

export const runKeepingTask = ({ input, ...part }: KeepingTask): BroodKeeping =>
  whomToKeep({ ...input, pedigree: pedigreeOfPart(part) });

/** Changes with everything that the answer is made from. */
export const keyOfTask = ({ input: { alleles, ...rest }, ...part }: KeepingTask): string =>
  stateOfPart(part, rest, alleles.map(written));

const written = ({ carrying, sole, ...allele }: AlleleInLine): unknown => [
  allele,
  [...carrying],
  sole === null ? null : [...sole],
];
