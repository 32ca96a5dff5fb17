import { createHash } from 'node:crypto';
import {
  type AlleleInLine,
  type BroodKeeping,
  type KeepingInput,
  whomToKeep,
} from '@linewright/mating';
import { type Pedigree, pedigreeFromArrays, subset, withAncestors } from '@linewright/pedigree';

/** A brood to be gone through. It can pass between threads. */
export interface KeepingTask {
  readonly ids: readonly string[];
  readonly sire: Int32Array;
  readonly dam: Int32Array;
  readonly hidden?: Uint8Array;
  readonly input: Omit<KeepingInput, 'pedigree'>;
}

/** With the fish it is about and their ancestors, and no others. */
export const keepingTask = (
  pedigree: Pedigree,
  input: Omit<KeepingInput, 'pedigree'>,
): KeepingTask => {
  const fish = [...input.young, ...input.mates].map(({ id }) => pedigree.indexOf(id));
  const { ids, sire, dam, hidden } = subset(pedigree, withAncestors(pedigree, fish));
  return { ...{ ids, sire, dam, input }, ...(hidden && { hidden }) };
};

export const runKeepingTask = ({ ids, sire, dam, hidden, input }: KeepingTask): BroodKeeping =>
  whomToKeep({ ...input, pedigree: pedigreeFromArrays(sire, dam, ids, hidden) });

/** Changes with everything that the answer is made from. */
export const keyOfTask = ({ ids, sire, dam, hidden, input }: KeepingTask): string => {
  const { alleles, ...rest } = input;
  return createHash('sha256')
    .update(sire)
    .update(dam)
    .update(hidden ?? '')
    .update(JSON.stringify([ids, rest, alleles.map(written)], bigintAsText))
    .digest('hex');
};

const written = ({ carrying, sole, ...allele }: AlleleInLine): unknown => [
  allele,
  [...carrying],
  sole === null ? null : [...sole],
];

const bigintAsText = (_key: string, value: unknown): unknown =>
  typeof value === 'bigint' ? String(value) : value;
