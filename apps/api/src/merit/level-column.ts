import type { LevelColumn } from './merit-task.js';

/** A column of levels in their order; -1 where a row has none. */
export const levelsOf = (name: string, values: readonly (string | null)[]): LevelColumn => {
  const levels = [...new Set(values)].filter((value) => value !== null).sort();
  const at = new Map<string | null, number>(levels.map((level, k) => [level, k]));
  return {
    name,
    levels,
    codes: new Int32Array(values.length).map((_, row) => at.get(values[row]!) ?? -1),
  };
};
