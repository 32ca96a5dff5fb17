import { useCallback, useMemo, useState } from 'react';
import type { NewEntry } from '../../outbox/entry.js';
import { StoreError } from '../../outbox/store.js';
import { askToKeep } from '../../outbox/this-device.js';
import { useOutbox } from '../../outbox/use-outbox.js';
import type { Disposition, Sex } from '../../wording/words.js';
import {
  culledFryEntries,
  decidedEntries,
  jarredEntries,
  scoredEntries,
  sexEntry,
  type BulkCull,
  type ClassChoice,
} from './bench-entries.js';
import type { Bench, BenchFish } from './bench-facts.js';
import type { Scored } from './sheet-look.js';

const notKept = (error: unknown): string =>
  error instanceof StoreError
    ? error.message
    : `The entry was NOT kept (${String(error)}): it is still filled in here; reload the page, then enter it again.`;

/** Resolves to whether the device has the entries; `trouble` says why it has not. */
function useEntering(dateError: string | null) {
  const { open } = useOutbox();
  const [trouble, setTrouble] = useState<string | null>(null);
  const enter = useCallback(
    async (...entries: NewEntry[]): Promise<boolean> => {
      if (open === null) return false;
      if (dateError !== null) {
        setTrouble(`Not entered. ${dateError}`);
        return false;
      }
      if (entries.length === 0) return true;
      try {
        await open.outbox.enter(...entries);
        setTrouble(null);
        void askToKeep();
        return true;
      } catch (error) {
        setTrouble(notKept(error));
        return false;
      }
    },
    [open, dateError],
  );
  return { enter, trouble, outbox: open?.outbox };
}

/** Everything that can be entered at the bench. Each resolves once the device has it; `trouble` says when it has not. */
export function useBenchEntries(bench: Bench, on: string, dateError: string | null) {
  const { enter, trouble, outbox } = useEntering(dateError);
  return useMemo(
    () => ({
      trouble,
      decide: (
        fish: BenchFish,
        disposition: Disposition,
        reason: string | null,
        scored: Scored,
        seen: ClassChoice | null,
      ) => enter(...decidedEntries(bench, fish, on, { disposition, reason, scored, seen })),
      score: (fish: BenchFish, scored: Scored) => enter(...scoredEntries(bench, fish, on, scored)),
      setSex: (fish: BenchFish, sex: Sex) => enter(sexEntry(bench, fish, sex)),
      cullFry: (cull: BulkCull) => enter(...culledFryEntries(bench, on, cull)),
      jar: (number: number, sex: Sex) => enter(...jarredEntries(bench, number, sex)),
      undo: () => outbox?.undoLast(bench.id) ?? Promise.resolve(null),
    }),
    [bench, enter, on, outbox, trouble],
  );
}

export type BenchEntries = ReturnType<typeof useBenchEntries>;
