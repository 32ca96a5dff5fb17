import { newId } from '../../api/new-id.js';
import type { NewEntry } from '../../outbox/entry.js';
import { dispositionWord, sexWord, type Disposition, type Sex } from '../../wording/words.js';
import { classOf, fishState, nextTags, type Bench, type BenchFish } from './bench-facts.js';
import { lookEntry, type Scored } from './sheet-look.js';

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

function decisionEntry(
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

function classEntry(
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
      scores: [...values].map(([traitId, value]) => {
        const version = bench.traits.find((each) => each.id === traitId)?.version;
        const seen = version === undefined ? {} : { traitVersion: version };
        return { id: newId(), traitId, value, ...seen };
      }),
    },
  };
}

/** A look on a sheet is one entry, and so are the scores beside it. */
export function scoredEntries(
  bench: Bench,
  fish: BenchFish,
  on: string,
  scored: Scored,
): NewEntry[] {
  const { look, plain } = scored;
  return [
    ...(look === null ? [] : [lookEntry(bench, fish, on, look)]),
    ...(plain.size === 0 ? [] : [scoresEntry(bench, fish, on, plain)]),
  ];
}

export interface Decided {
  readonly disposition: Disposition;
  readonly reason: string | null;
  readonly scored: Scored;
  /** Class it is counted in, unless it was before. */
  readonly seen: ClassChoice | null;
}

/** A decision, with what was scored and counted of the fish before. */
export function decidedEntries(
  bench: Bench,
  fish: BenchFish,
  on: string,
  { disposition, reason, scored, seen }: Decided,
): NewEntry[] {
  const counted = seen === null ? undefined : classOf(bench, fish, seen.locusId);
  return [
    ...scoredEntries(bench, fish, on, scored),
    ...(seen !== null && counted === undefined ? [classEntry(bench, seen, 1, on, fish.tag)] : []),
    decisionEntry(bench, fish, disposition, on, reason),
  ];
}

export const sexEntry = (bench: Bench, fish: BenchFish, sex: Sex): NewEntry => ({
  kind: 'sex',
  spawnId: bench.id,
  subject: fish.id,
  label: `${fish.tag}: ${sexWord[sex]}`,
  input: { id: fish.id, revision: fish.revision, sex },
  before: fishState(fish),
});

/** Fry culled as a count; those of one class are counted in it. */
export function culledFryEntries(bench: Bench, on: string, cull: BulkCull): NewEntry[] {
  const { number, reason, heritable, locusId, seen } = cull;
  return [
    ...(seen === null ? [] : [classEntry(bench, seen, number, on, null)]),
    {
      kind: 'loss',
      spawnId: bench.id,
      subject: bench.id,
      label: `${bench.tag}: ${number} fry culled, ${reason}`,
      input: {
        ...{ id: newId(), spawnId: bench.id, kind: 'CULLED', on },
        ...{ number, reason, heritable, locusId },
      },
    },
  ];
}

/** Records for fish that are jarred; their tags count on. */
export const jarredEntries = (bench: Bench, number: number, sex: Sex): NewEntry[] =>
  nextTags(bench, number).map((tag): NewEntry => {
    const id = newId();
    return {
      kind: 'new_fish',
      spawnId: bench.id,
      subject: id,
      label: `${tag}: jarred`,
      input: {
        ...{ id, tag, sex, spawnId: bench.id },
        ...{ hatchDate: bench.hatchDate, disposition: 'UNSORTED' },
      },
    };
  });
