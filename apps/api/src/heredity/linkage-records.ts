import type { Locus } from '@linewright/heredity';
import { findPhenotype } from '../loci/phenotype-reading.js';
import type { CountRow, EvidenceRows } from '../stock/evidence-rows.js';
import { type LinkageBroodInput, LinkedParent, LinkedPhase } from './inheritance.model.js';

/** Whether each fish looked at shows a look; null where its looks contradict each other. */
export type Shows = ReadonlyMap<string, boolean | null>;

/** A look that a fish shows with two copies only, and who shows it. */
export interface RecessiveLook {
  readonly locus: Locus;
  readonly phenotype: string;
  readonly shows: Shows;
}

export interface BroodOnRecord extends LinkageBroodInput {
  readonly spawnId: string;
  readonly spawnTag: string;
}

type Looks = readonly [first: RecessiveLook, second: RecessiveLook];
type Counts = Pick<LinkageBroodInput, 'both' | 'firstOnly' | 'secondOnly' | 'neither'>;

/**
 * Broods on record that tell of two recessive looks. A parent that shows neither look, and has young that show each, carries both; its partner
 * shows both, or carries both as well. The phase is known where the carrier's own parents show the looks: both on one of them, or one
 * on each. Young count by a count of the brood by both loci, or by looks of their own, whichever are more.
 */
export const linkageBroods = (rows: EvidenceRows, looks: Looks): BroodOnRecord[] => {
  const parentsOf = new Map(rows.fish.map(({ id, sire, dam }) => [id, [sire, dam] as const]));
  const youngOf = bySpawn(rows.fish);
  const countsOf = bySpawn(rows.counts);
  return rows.spawns.flatMap(({ id, tag, sire, dam }) => {
    if (sire === null || dam === null) return [];
    const seen = lookedAt(
      (youngOf.get(id) ?? []).map((one) => one.id),
      looks,
    );
    const counted = countedBrood(countsOf.get(id) ?? [], looks);
    const counts = total(counted) >= total(seen) ? counted : seen;
    if (counts.both + counts.firstOnly === 0 || counts.both + counts.secondOnly === 0) return [];
    const carrier = carrierOf(sire, dam, looks);
    if (carrier === null) return [];
    const phases = (
      carrier === LinkedParent.BOTH ? [sire, dam] : [carrier === LinkedParent.SIRE ? sire : dam]
    ).map((parent) => phaseOf(parentsOf.get(parent) ?? [null, null], looks));
    // Of two carriers the engine takes one phase: where theirs differ, none is given.
    const phase = phases.every((one) => one === phases[0]) ? phases[0]! : LinkedPhase.UNKNOWN;
    return [{ spawnId: id, spawnTag: tag, carrier, phase, ...counts }];
  });
};

const bySpawn = <Row extends { readonly spawnId: string | null }>(
  rows: readonly Row[],
): Map<string | null, Row[]> => {
  const groups = new Map<string | null, Row[]>();
  for (const row of rows) {
    const group = groups.get(row.spawnId);
    if (group === undefined) groups.set(row.spawnId, [row]);
    else group.push(row);
  }
  return groups;
};

const total = ({ both, firstOnly, secondOnly, neither }: Counts): number =>
  both + firstOnly + secondOnly + neither;

const showing = (fish: string | null, { shows }: RecessiveLook): boolean | null =>
  fish === null ? null : (shows.get(fish) ?? null);

const carrierOf = (sire: string, dam: string, [first, second]: Looks): LinkedParent | null => {
  const both = (fish: string) => showing(fish, first) === true && showing(fish, second) === true;
  const neither = (fish: string) =>
    showing(fish, first) === false && showing(fish, second) === false;
  if (neither(sire) && neither(dam)) return LinkedParent.BOTH;
  if (neither(sire) && both(dam)) return LinkedParent.SIRE;
  return neither(dam) && both(sire) ? LinkedParent.DAM : null;
};

const phaseOf = (parents: readonly (string | null)[], [first, second]: Looks): LinkedPhase => {
  const shown = parents.map((fish) => [showing(fish, first), showing(fish, second)] as const);
  if (shown.some(([a, b]) => a === true && b === true)) return LinkedPhase.TOGETHER;
  const apart = shown.some(([a]) => a === true) && shown.some(([, b]) => b === true);
  return apart ? LinkedPhase.APART : LinkedPhase.UNKNOWN;
};

const none = (): { -readonly [K in keyof Counts]: number } => ({
  both: 0,
  firstOnly: 0,
  secondOnly: 0,
  neither: 0,
});

const kindOf = (first: boolean, second: boolean): keyof Counts =>
  first ? (second ? 'both' : 'firstOnly') : second ? 'secondOnly' : 'neither';

const lookedAt = (young: readonly string[], [first, second]: Looks): Counts => {
  const counts = none();
  for (const fish of young) {
    const [a, b] = [showing(fish, first), showing(fish, second)];
    if (a !== null && b !== null) counts[kindOf(a, b)]++;
  }
  return counts;
};

/** The latest day's count by both loci; nothing when one of its classes does not name a look of each. */
const countedBrood = (rows: readonly CountRow[], looks: Looks): Counts => {
  const counts = none();
  const byBoth = rows.filter(({ locusIds }) =>
    looks.every(({ locus }) => locusIds.includes(locus.id)),
  );
  const latest = byBoth.reduce((day, row) => (row.countedOn > day ? row.countedOn : day), '');
  for (const row of byBoth.filter(({ countedOn }) => countedOn === latest)) {
    const parts = row.phenotype.split(',');
    const [a, b] = looks.map(({ locus, phenotype }) => {
      const named = parts.flatMap((part) => findPhenotype(locus, part)?.id ?? []);
      return named.length === 1 ? named[0] === phenotype : null;
    });
    if (a === null || b === null) return none();
    counts[kindOf(a!, b!)] += row.number;
  }
  return counts;
};
