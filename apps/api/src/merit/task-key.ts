import { createHash } from 'node:crypto';
import type { Pedigree } from '@linewright/pedigree';
import type { MeritTask } from './merit-task.js';

/** Raised whenever answers get another shape or are worked out otherwise: those stored in an older one are not served. */
const SHAPE = '9';

/**
 * Names the state of the records that a trait's figures are made from: what values rest on, how many looks there are, and what only advice
 * and trends rest on, such as which fish could be scored.
 */
export const keyOf = ({ task }: { readonly task: MeritTask }, pedigree: Pedigree): string => {
  const rest = createHash('sha256').update(task.unscored);
  for (const { lineId, fish } of task.lines) rest.update(lineId).update(fish);
  return [modelKey(task, pedigree), task.fish.length, rest.digest('hex').slice(0, 16)].join('.');
};

/** What values rest on: pedigree, looks, columns, settings. */
const modelKey = (task: MeritTask, pedigree: Pedigree): string => {
  const hash = createHash('sha256').update(SHAPE);
  for (const array of [task.sire, task.dam, task.fish, task.values]) hash.update(array);
  hash.update(task.hidden ?? '').update(task.age ?? '');
  for (const { name, levels, codes } of [...task.fixed, ...task.shared])
    hash.update(JSON.stringify([name, levels])).update(codes);
  for (const { name, values } of task.numbers) hash.update(name).update(values);
  hash.update(JSON.stringify([task.trait, task.kind, task.prior, task.looks]));
  hash.update(JSON.stringify(task.groups?.names ?? null)).update(task.groups?.groupOf ?? '');
  // Answers tell fish by their place, so the places belong to the key.
  return hash.update(JSON.stringify(pedigree.ids)).digest('hex').slice(0, 32);
};

/** How many looks the answer of a key was made from. */
export const looksIn = (key: string): number => Number(key.split('.')[1]);

/** Whether two keys are of the same model, whatever could be scored next. */
export const isSameModel = (one: string, other: string): boolean =>
  one.split('.', 2).join('.') === other.split('.', 2).join('.');
