import { useCallback, useMemo, useState } from 'react';
import { newId } from '../../api/new-id.js';
import type { NewEntry } from '../../outbox/entry.js';
import { StoreError } from '../../outbox/store.js';
import { askToKeep } from '../../outbox/this-device.js';
import { useOutbox } from '../../outbox/use-outbox.js';
import { dispositionWord, sexWord, type Disposition, type Sex } from '../../wording/words.js';
import { lookEntry, type Scored } from './sheet-look.js';
import { classOf, fishState, nextTags, type Bench, type BenchFish } from './bench-facts.js';

/** A fault put down to a locus: culls for it count the fish in that class. */
export interface ClassChoice {
  readonly locusId: string;
  readonly phenotype: string;
}

export interface BulkCull {
  readonly number: number;
  readonly reason: string;
  readonly heritable: boolean;
  readonly locusId: string | null;
  readonly seen: ClassChoice | null;
}

export function decisionEntry(
  bench: Bench,
  fish: BenchFish,
  disposition: Disposition,
  on: string,
  reason: string | null,
): NewEntry {
  return {
    kind: 'decision',
    spawnId: bench.id,
    subject: fish.id,
    label: `${fish.tag}: ${dispositionWord[disposition]}${reason === null ? '' : `, ${reason}`}`,
    input: { id: fish.id, disposition, on, reason, revision: fish.revision },
    before: fishState(fish),
  };
}

export function classEntry(
  bench: Bench,
  seen: ClassChoice,
  number: number,
  on: string,
  note: string | null,
): NewEntry {
  return {
    kind: 'class_count',
    spawnId: bench.id,
    subject: bench.id,
    label: `${note ?? bench.tag}: ${number === 1 ? '' : `${number} `}counted as ${seen.phenotype}`,
    input: {
      id: newId(),
      spawnId: bench.id,
      locusIds: [seen.locusId],
      phenotype: seen.phenotype,
      number,
      countedOn: on,
      note,
    },
  };
}

function scoresEntry(
  bench: Bench,
  fish: BenchFish,
  on: string,
  values: ReadonlyMap<string, number>,
): NewEntry {
  const names = [...values].map(([traitId, value]) => {
    const trait = bench.traits.find((each) => each.id === traitId);
    return `${trait?.name ?? 'score'} ${value}`;
  });
  return {
    kind: 'scores',
    spawnId: bench.id,
    subject: fish.id,
    label: `${fish.tag}: ${names.join(', ')}`,
    input: {
      fishId: fish.id,
      scoredOn: on,
      entries: [...values].map(([traitId, value]) => {
        const version = bench.traits.find((each) => each.id === traitId)?.version;
        const seen = version === undefined ? {} : { traitVersion: version };
        return { id: newId(), traitId, value, ...seen };
      }),
    },
  };
}

/** A look on a sheet is one entry, and so are the scores beside it. */
function scoredEntries(bench: Bench, fish: BenchFish, on: string, scored: Scored): NewEntry[] {
  const { look, plain } = scored;
  return [
    ...(look === null ? [] : [lookEntry(bench, fish, on, look)]),
    ...(plain.size === 0 ? [] : [scoresEntry(bench, fish, on, plain)]),
  ];
}

/** Everything that can be entered at the bench. Each resolves once the device has it; `trouble` says when it has not. */
export function useBenchEntries(bench: Bench, on: string, dateError: string | null) {
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
        setTrouble(
          error instanceof StoreError
            ? error.message
            : `The entry was NOT kept (${String(error)}): it is still filled in here; reload the page, then enter it again.`,
        );
        return false;
      }
    },
    [open, dateError],
  );

  return useMemo(
    () => ({
      trouble,
      decide: (
        fish: BenchFish,
        disposition: Disposition,
        reason: string | null,
        scored: Scored,
        seen: ClassChoice | null,
      ) => {
        const entries = scoredEntries(bench, fish, on, scored);
        const counted = seen === null ? undefined : classOf(bench, fish, seen.locusId);
        if (seen !== null && counted === undefined)
          entries.push(classEntry(bench, seen, 1, on, fish.tag));
        entries.push(decisionEntry(bench, fish, disposition, on, reason));
        return enter(...entries);
      },
      score: (fish: BenchFish, scored: Scored) => enter(...scoredEntries(bench, fish, on, scored)),
      setSex: (fish: BenchFish, sex: Sex) =>
        enter({
          kind: 'sex',
          spawnId: bench.id,
          subject: fish.id,
          label: `${fish.tag}: ${sexWord[sex]}`,
          input: { id: fish.id, revision: fish.revision, sex },
          before: fishState(fish),
        }),
      cullFry: ({ number, reason, heritable, locusId, seen }: BulkCull) => {
        const loss: NewEntry = {
          kind: 'loss',
          spawnId: bench.id,
          subject: bench.id,
          label: `${bench.tag}: ${number} fry culled, ${reason}`,
          input: {
            id: newId(),
            spawnId: bench.id,
            kind: 'CULLED',
            on,
            number,
            reason,
            heritable,
            locusId,
          },
        };
        return enter(...(seen === null ? [] : [classEntry(bench, seen, number, on, null)]), loss);
      },
      jar: (number: number, sex: Sex) =>
        enter(
          ...nextTags(bench, number).map((tag): NewEntry => {
            const id = newId();
            return {
              kind: 'new_fish',
              spawnId: bench.id,
              subject: id,
              label: `${tag}: jarred`,
              input: {
                id,
                tag,
                sex,
                spawnId: bench.id,
                hatchDate: bench.hatchDate,
                disposition: 'UNSORTED',
              },
            };
          }),
        ),
      undo: () => open?.outbox.undoLast(bench.id) ?? Promise.resolve(null),
    }),
    [bench, enter, on, open, trouble],
  );
}

export type BenchEntries = ReturnType<typeof useBenchEntries>;
