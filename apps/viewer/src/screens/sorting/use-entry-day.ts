import type { Bench } from './bench-facts.js';
import { useBenchPlace } from './use-bench-place.js';
import { dayTrouble, useToday } from './use-today.js';

/** The day that entries are dated: today unless another was chosen, which stays with the place at the bench. */
export function useEntryDay(bench: Bench) {
  const place = useBenchPlace(bench.id);
  const today = useToday();
  const on = place.day ?? today;
  return {
    ...{ place, on },
    isToday: on === today,
    error: dayTrouble(on, bench.hatchDate),
    setOn: (chosen: string) => place.choose(chosen === '' || chosen === today ? null : chosen),
  };
}

export type EntryDay = ReturnType<typeof useEntryDay>;
