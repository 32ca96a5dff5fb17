import { useState } from 'react';
import { RECORD_CLASS_COUNT } from '../../api/spawns.js';
import { useSave } from '../../api/use-save.js';

export interface CountedClass {
  readonly phenotype: string;
  readonly number: number;
}

interface Counting {
  readonly locusIds: string[];
  readonly countedOn: string;
  readonly note: string | null;
}

/** The classes that got a number, each with its name; a blank box counts nothing. */
export const countedClasses = (
  names: readonly string[],
  numbers: readonly (number | null | undefined)[],
): CountedClass[] =>
  names.flatMap((phenotype, at) => {
    const number = numbers[at] ?? null;
    return number === null ? [] : [{ phenotype, number }];
  });

/** Saves counts class by class. Classes saved before a failure are not sent twice. */
export function useClassCounts(spawnId: string) {
  const [saved, setSaved] = useState<ReadonlySet<string>>(new Set());
  const { save, saving, problem } = useSave(RECORD_CLASS_COUNT);
  /** Resolves to whether all are saved. */
  const keep = async (classes: readonly CountedClass[], counting: Counting): Promise<boolean> => {
    for (const each of classes.filter(({ phenotype }) => !saved.has(phenotype))) {
      if ((await save({ input: { spawnId, ...counting, ...each } })) === null) return false;
      setSaved((before) => new Set(before).add(each.phenotype));
    }
    return true;
  };
  return { keep, saved, saving, problem };
}
