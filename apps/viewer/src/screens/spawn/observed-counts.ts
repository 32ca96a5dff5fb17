import type { Cross } from '../../api/heredity.js';
import type { SpawnFacts } from '../../api/spawns.js';

export interface ObservedDay {
  on: string;
  /** Observed number by class. */
  byClass: ReadonlyMap<string, number>;
  /** Counted classes that the parents' genotypes do not allow. */
  unexpected: readonly { phenotype: string; number: number }[];
  total: number;
}

/** The counts of one day add up to one scoring of the brood. Latest day first. */
export function observedDays(spawn: SpawnFacts, cross: Cross): ObservedDay[] {
  const expected = new Set(cross.classes.map((each) => each.phenotype));
  const days = [...new Set(spawn.classCounts.map((count) => count.countedOn))].sort().reverse();
  return days.map((on) => {
    const byClass = new Map<string, number>();
    for (const count of spawn.classCounts.filter((each) => each.countedOn === on)) {
      byClass.set(count.phenotype, (byClass.get(count.phenotype) ?? 0) + count.number);
    }
    return {
      on,
      byClass,
      unexpected: [...byClass]
        .filter(([phenotype]) => !expected.has(phenotype))
        .map(([phenotype, number]) => ({ phenotype, number })),
      total: [...byClass.values()].reduce((sum, number) => sum + number, 0),
    };
  });
}
