import type { BenchFacts } from '../../api/entries.js';
import { isUndoOf, type Entry, type FishState, type SentEntry } from '../../outbox/entry.js';
import type { Kept } from '../../outbox/store.js';
import type { TakenAlong } from '../../outbox/taken-along.js';
import type { CountedBrood } from '../../wording/brood-left.js';
import { compareTags } from '../../wording/tags.js';
import type { Disposition, Sex } from '../../wording/words.js';

export type BenchTrait = BenchFacts['traits'][number];
export type BenchSheet = BenchFacts['scoreSheets'][number];
export type BenchLocus = BenchFacts['loci'][number];

export interface BenchFish {
  readonly id: string;
  readonly tag: string;
  readonly hatchDate: string | null;
  readonly revision: number;
  readonly sex: Sex;
  readonly disposition: Disposition;
  readonly dispositionDate: string | null;
  readonly dispositionReason: string | null;
  /** Latest value by trait. */
  readonly scores: ReadonlyMap<string, { id: string; value: number }>;
  /** What is decided on the server, where that differs from what is shown. */
  readonly onServer: Disposition | null;
  readonly waiting: number;
  /** Entries that need the person: in conflict or refused. */
  readonly stopped: readonly Entry[];
}

export interface ClassSeen {
  readonly id: string;
  readonly locusIds: readonly string[];
  readonly phenotype: string;
  readonly number: number;
  readonly note: string | null;
}

export interface Bench {
  readonly id: string;
  readonly tag: string;
  readonly hatchDate: string | null;
  readonly fish: readonly BenchFish[];
  readonly traits: readonly BenchTrait[];
  readonly sheets: readonly BenchSheet[];
  readonly loci: readonly BenchLocus[];
  readonly classes: readonly ClassSeen[];
  /** Fry culled without a record. */
  readonly culledFry: number;
  /** Most used first. */
  readonly reasons: readonly string[];
  /** Why it was withdrawn; `null` for a spawn that stands. */
  readonly withdrawnReason: string | null;
  /** What tells how many fry can be left. */
  readonly brood: CountedBrood;
  readonly waiting: number;
}

type Mutable = { -readonly [Key in keyof BenchFish]: BenchFish[Key] } & {
  scores: Map<string, { id: string; value: number }>;
};

interface Work {
  fish: Map<string, Mutable>;
  classes: ClassSeen[];
  losses: { id: string; kind: string; on: string; number: number; reason: string }[];
}

function fromServer({ facts }: TakenAlong): Work {
  const fish = facts.spawn.fish.map((each): [string, Mutable] => [
    each.id,
    {
      ...each,
      scores: new Map(
        each.latestScores.map(({ id, value, trait }): [string, { id: string; value: number }] => [
          trait.id,
          { id, value },
        ]),
      ),
      onServer: null,
      waiting: 0,
      stopped: [],
    },
  ]);
  return {
    fish: new Map(fish),
    classes: [...facts.spawn.classCounts],
    losses: [...facts.spawn.losses],
  };
}

function newFish({ subject, input }: Entry<'new_fish'>): Mutable {
  return {
    id: subject,
    tag: input.tag,
    hatchDate: input.hatchDate ?? null,
    revision: 1,
    sex: input.sex,
    disposition: 'UNSORTED',
    dispositionDate: null,
    dispositionReason: null,
    scores: new Map(),
    onServer: null,
    waiting: 0,
    stopped: [],
  };
}

/** Id of the record that an entry makes: the sender's own, or the entry's. */
const recordOf = (entry: Entry<'class_count' | 'loss'>): string => entry.input.id ?? entry.id;

function applyToFish(fish: Mutable, entry: Entry): void {
  if (entry.kind === 'decision') {
    fish.disposition = entry.input.disposition;
    fish.dispositionDate = entry.input.on;
    fish.dispositionReason = entry.input.reason ?? null;
  } else if (entry.kind === 'sex') {
    if (entry.input.sex != null) fish.sex = entry.input.sex;
  } else if (entry.kind === 'scores' || entry.kind === 'sheet_look') {
    for (const { id, traitId, value } of entry.input.scores)
      fish.scores.set(traitId, { id: id ?? entry.id, value });
  }
}

/** Adds a record to those of the spawn, unless it is among them. */
function addOnce<Kept extends { readonly id: string }>(list: Kept[], made: Kept): void {
  if (!list.some(({ id }) => id === made.id)) list.push(made);
}

function apply(work: Work, entry: Entry): void {
  const fish = work.fish.get(entry.subject);
  if (entry.kind === 'new_fish') {
    if (fish === undefined) work.fish.set(entry.subject, newFish(entry));
  } else if (entry.kind === 'class_count') {
    const { locusIds, phenotype, number, note = null } = entry.input;
    addOnce(work.classes, { id: recordOf(entry), locusIds, phenotype, number, note });
  } else if (entry.kind === 'loss') {
    const { kind, on, number, reason } = entry.input;
    addOnce(work.losses, { id: recordOf(entry), kind, on, number, reason });
  } else if (fish !== undefined) applyToFish(fish, entry);
}

/** Takes back what the server already showed when the facts were read. */
function takeBack(work: Work, entry: Entry): void {
  const fish = work.fish.get(entry.subject);
  const { before } = entry;
  if (entry.kind === 'new_fish') work.fish.delete(entry.subject);
  else if (entry.kind === 'class_count')
    work.classes = work.classes.filter((each) => each.id !== recordOf(entry));
  else if (entry.kind === 'loss')
    work.losses = work.losses.filter((each) => each.id !== recordOf(entry));
  else if (entry.kind === 'scores' || entry.kind === 'sheet_look') {
    for (const { id, traitId } of entry.input.scores)
      if (fish?.scores.get(traitId)?.id === (id ?? entry.id)) fish?.scores.delete(traitId);
  } else if (fish !== undefined && before !== undefined) {
    const { sex, ...decided } = before;
    if (entry.kind === 'sex') fish.sex = sex;
    else Object.assign(fish, decided);
  }
}

const isSent = (entry: Entry | SentEntry): entry is SentEntry => 'sentAt' in entry;

interface Since {
  readonly waiting: readonly Entry[];
  readonly sent: readonly SentEntry[];
  /** In the order they were made: sent but not yet read back, or still waiting. */
  readonly entries: readonly (Entry | SentEntry)[];
}

function since({ facts, settled, at }: TakenAlong, kept: Kept): Since {
  const ours = <Each extends Entry>(entries: readonly Each[]) =>
    entries.filter((entry) => entry.spawnId === facts.spawn.id);
  const waiting = ours(kept.entries);
  const sent = ours(kept.sent);
  const known = new Set(settled);
  const isShown = (entry: SentEntry): boolean =>
    settled === undefined ? entry.sentAt < at : known.has(entry.id);
  const entries = [...sent.filter((entry) => !isShown(entry)), ...waiting].sort(
    (a, b) => a.sequence - b.sequence,
  );
  return { waiting, sent, entries };
}

/** What the server had, with what was entered since. */
function workOf(taken: TakenAlong, { sent, entries }: Since): Work {
  const work = fromServer(taken);
  for (const undo of entries.filter((entry) => entry.kind === 'undo')) {
    const target = sent.find((entry) => isUndoOf(undo, entry.id));
    if (target !== undefined && !entries.includes(target)) takeBack(work, target);
  }
  for (const entry of entries) {
    const undone = entries.some((later) => isUndoOf(later, entry.id));
    if (!undone && entry.state === 'waiting') apply(work, entry);
    mark(work.fish.get(entry.subject), entry, taken.facts.spawn.fish);
  }
  return work;
}

/** Of fry and of fish that were culled, most used first. */
function reasonsOf(culled: Work['losses'], fish: readonly BenchFish[]): string[] {
  const ofFish = fish
    .filter(({ disposition }) => disposition === 'CULLED')
    .flatMap(({ dispositionReason }) => dispositionReason ?? []);
  return mostUsed([...culled.map(({ reason }) => reason), ...ofFish]);
}

/** The spawn as the server had it, with what was entered here since: sent but not yet read back, or still waiting. */
export function benchOf(taken: TakenAlong, kept: Kept): Bench {
  const { spawn, traits, loci } = taken.facts;
  // Facts that were taken along by an earlier version have no sheets and no counts.
  const { scoreSheets: sheets = [] } = taken.facts as Partial<BenchFacts>;
  const { counts = [] } = spawn as Partial<BenchFacts['spawn']>;
  const entered = since(taken, kept);
  const { losses, classes, ...work } = workOf(taken, entered);
  const fish = [...work.fish.values()];
  const culled = losses.filter(({ kind }) => kind === 'CULLED');
  return {
    ...{ id: spawn.id, tag: spawn.tag, hatchDate: spawn.hatchDate },
    fish: [...fish].sort((a, b) => compareTags(a.tag, b.tag)),
    ...{ traits, sheets, loci, classes },
    culledFry: culled.reduce((sum, { number }) => sum + number, 0),
    reasons: reasonsOf(culled, fish),
    withdrawnReason: spawn.withdrawn?.reason ?? null,
    brood: { counts, losses, fish },
    waiting: entered.waiting.length,
  };
}

function mark(
  fish: Mutable | undefined,
  entry: Entry | SentEntry,
  served: BenchFacts['spawn']['fish'],
): void {
  if (fish === undefined) return;
  if (isSent(entry)) {
    if (entry.revisionAfter !== null) fish.revision = Math.max(fish.revision, entry.revisionAfter);
    return;
  }
  fish.waiting += 1;
  if (entry.state !== 'waiting') fish.stopped = [...fish.stopped, entry];
  const there = served.find((each) => each.id === fish.id)?.disposition ?? null;
  if (entry.kind === 'decision' || entry.kind === 'undo' || entry.kind === 'new_fish')
    fish.onServer = there === fish.disposition ? null : there;
}

function mostUsed(reasons: readonly string[]): string[] {
  const uses = new Map<string, number>();
  for (const reason of reasons) uses.set(reason, (uses.get(reason) ?? 0) + 1);
  return [...uses].sort((a, b) => b[1] - a[1]).map(([reason]) => reason);
}

export const fishState = (fish: BenchFish): FishState => ({
  sex: fish.sex,
  disposition: fish.disposition,
  dispositionDate: fish.dispositionDate,
  dispositionReason: fish.dispositionReason,
});

/** Whether a trait says something at this age; one without a window always does. */
export function fitsAge(trait: BenchTrait, ageDays: number | null): boolean {
  if (ageDays === null) return true;
  return (
    (trait.fromAgeDays === null || ageDays >= trait.fromAgeDays) &&
    (trait.toAgeDays === null || ageDays <= trait.toAgeDays)
  );
}

/** The class that a fish was counted in at a locus, told by its tag in the note of the count. */
export const classOf = (bench: Bench, fish: BenchFish, locusId: string): ClassSeen | undefined =>
  bench.classes.findLast(
    (each) => each.note === fish.tag && each.locusIds.length === 1 && each.locusIds[0] === locusId,
  );

/** Next tags of the spawn, counting on from the highest known here. */
export function nextTags(bench: Bench, number: number): string[] {
  const prefix = `${bench.tag}-`;
  const highest = bench.fish
    .map(({ tag }) => (tag.startsWith(prefix) ? Number(tag.slice(prefix.length)) : NaN))
    .filter((each) => Number.isInteger(each))
    .reduce((a, b) => Math.max(a, b), 0);
  return Array.from(
    { length: number },
    (_, index) => `${prefix}${String(highest + index + 1).padStart(2, '0')}`,
  );
}
