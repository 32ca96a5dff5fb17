import { daysBetween } from '@linewright/care';
import type { Locus } from '@linewright/heredity';
import { findPhenotype } from '../loci/phenotype-reading.js';
import type { EvidenceRecord, SetAside } from './evidence.js';
import type { CountRow, CullRow, SpawnLine } from '../stock/evidence-rows.js';

export interface BroodRows {
  readonly spawn: SpawnLine;
  readonly counts: readonly CountRow[];
  readonly culls: readonly CullRow[];
  /** Looks at this locus that are counted for fish of the spawn with a record of their own. */
  readonly young: readonly { readonly fish: string; readonly phenotype: string }[];
}

export interface BroodCount {
  readonly record: EvidenceRecord | null;
  readonly setAside: readonly SetAside[];
  readonly countedOn: string | null;
  /** Everything counted, fish with a record of their own included. */
  readonly counts: Readonly<Record<string, number>>;
}

/** Phenotype of the locus that the name of a class speaks of: the class itself, or one of its comma-separated parts. */
const classPhenotype = (locus: Locus, row: CountRow): string | null => {
  const whole = findPhenotype(locus, row.phenotype);
  if (whole !== undefined) return whole.id;
  const parts = row.phenotype.split(',').flatMap((part) => findPhenotype(locus, part)?.id ?? []);
  return parts.length === 1 ? (parts[0] ?? null) : null;
};

/** One scoring of the brood: the latest day, and on it the set of loci with most fish, so that none is counted twice. */
const scoring = (locus: Locus, rows: readonly CountRow[]): CountRow[] => {
  const latest = rows.reduce((day, row) => (row.countedOn > day ? row.countedOn : day), '');
  const groups = new Map<string, CountRow[]>();
  for (const row of rows.filter((one) => one.countedOn === latest)) {
    const key = row.locusIds.toSorted().join(' ');
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  const usable = [...groups.values()].filter((group) =>
    group.every((row) => classPhenotype(locus, row) !== null),
  );
  const total = (group: CountRow[]) => group.reduce((sum, row) => sum + row.number, 0);
  return usable.toSorted((a, b) => total(b) - total(a))[0] ?? [];
};

const ageOf = (spawn: SpawnLine, day: string): number | null =>
  spawn.hatchDate === null ? null : daysBetween(spawn.hatchDate, day);

const told = (locus: Locus, counts: Readonly<Record<string, number>>): string =>
  locus.phenotypes
    .filter((one) => (counts[one.id] ?? 0) > 0)
    .map((one) => `${counts[one.id] ?? 0} ${one.name}`)
    .join(', ');

type Aside = (kind: SetAside['kind'], recordId: string, why: string) => void;

/** What is said of a brood that has no count to be used: neither its classes nor its culls tell a share. */
const setAsideAll = (locus: Locus, { spawn, counts, culls }: BroodRows, aside: Aside): void => {
  const [first] = counts;
  if (first !== undefined)
    aside(
      'class_count',
      first.id,
      `No class of spawn ${spawn.tag} names what is seen at ${locus.name.toLowerCase()}.`,
    );
  for (const cull of culls)
    aside(
      'spawn_loss',
      cull.id,
      `${cull.number} culled of ${spawn.tag}: how many were free of it was not counted, so it says nothing about the share.`,
    );
};

/** Heritable culls by what was seen, as far as they were made before the count: later ones were in it already. */
const culledBefore = (
  locus: Locus,
  { spawn, culls }: BroodRows,
  countedOn: string,
  aside: Aside,
): Map<string, number> => {
  const added = new Map<string, number>();
  for (const cull of culls) {
    const seen = findPhenotype(locus, cull.phenotype ?? cull.reason);
    if (seen === undefined) {
      aside(
        'spawn_loss',
        cull.id,
        `${cull.number} culled of ${spawn.tag} for "${cull.reason}": what was seen at ${locus.name.toLowerCase()} is not recorded.`,
      );
    } else if (cull.onDate < countedOn) {
      added.set(seen.id, (added.get(seen.id) ?? 0) + cull.number);
    }
  }
  return added;
};

/** The counts without the young that have a record of their own, as far as they can have been counted. */
const withoutOwnRecords = (
  counts: Readonly<Record<string, number>>,
  young: BroodRows['young'],
): Record<string, number> => {
  const left: Record<string, number> = { ...counts };
  const own = new Map(young.map((row) => [row.fish, row.phenotype]));
  for (const phenotype of own.values()) {
    const number = left[phenotype] ?? 0;
    if (number > 0) left[phenotype] = number - 1;
  }
  return left;
};

/** Why a count says nothing, although its classes are known; `null` when it does. */
const whyUnusable = (locus: Locus, spawn: SpawnLine, countedOn: string): string | null => {
  if (spawn.sire === null || spawn.dam === null)
    return `Spawn ${spawn.tag} was counted, but a parent is not on record: record it on the spawn, or give two young of this one brood records of their own, and the count can be used.`;
  const from = locus.scoring.fromWeeks;
  const age = ageOf(spawn, countedOn);
  return from !== null && age !== null && age < from * 7
    ? `Spawn ${spawn.tag} was counted at ${age} days, before it is visible (${Math.round(from * 7)} days).`
    : null;
};

const sum = (numbers: Iterable<number>): number => [...numbers].reduce((all, n) => all + n, 0);

interface Counted {
  readonly countedOn: string;
  /** All that were counted or culled before. */
  readonly all: Readonly<Record<string, number>>;
  /** How many of them were culled before. */
  readonly added: number;
  /** Without the young that count by a record of their own. */
  readonly counts: Readonly<Record<string, number>>;
}

const recordOf = (
  locus: Locus,
  { id, tag, sire, dam }: SpawnLine & { readonly sire: string; readonly dam: string },
  { countedOn, all, added, counts }: Counted,
): EvidenceRecord => {
  const total = sum(Object.values(all));
  const takenOut = total - sum(Object.values(counts));
  const extras = [
    ...(added > 0 ? [`${added} culled before are added`] : []),
    ...(takenOut > 0 ? [`${takenOut} with a record of their own count there`] : []),
  ];
  return {
    evidence: { kind: 'brood', id: `brood ${id}`, sire, dam, counts },
    kind: 'class_count',
    recordId: id,
    fishIds: [sire, dam],
    spawnId: id,
    counted: locus.phenotypes.map((one) => all[one.id] ?? 0),
    text: `brood ${tag}: ${told(locus, all)} of ${total}, counted ${countedOn}${extras.length > 0 ? ` (${extras.join('; ')})` : ''}`,
  };
};

/**
 * A brood as one multinomial on its parents. Heritable culls put down to the locus, with what was seen, are added when
 * they were made before the count (those fish were no longer there to be counted); later ones were in it already. Young
 * with a record of their own are taken out: they count there.
 */
export const broodCount = (locus: Locus, rows: BroodRows): BroodCount => {
  const { spawn } = rows;
  const setAside: SetAside[] = [];
  const aside: Aside = (kind, recordId, why) =>
    setAside.push({ kind, recordId, fishId: null, spawnId: spawn.id, why });
  const counted = scoring(locus, rows.counts);
  const [first] = counted;
  if (first === undefined) {
    setAsideAll(locus, rows, aside);
    return { record: null, setAside, countedOn: null, counts: {} };
  }
  const { countedOn } = first;
  const culled = culledBefore(locus, rows, countedOn, aside);
  const all: Record<string, number> = {};
  for (const [phenotype, number] of [
    ...counted.map((row) => [classPhenotype(locus, row) ?? '', row.number] as const),
    ...culled,
  ])
    all[phenotype] = (all[phenotype] ?? 0) + number;
  const { sire, dam } = spawn;
  const why = whyUnusable(locus, spawn, countedOn);
  if (why !== null || sire === null || dam === null) {
    aside('class_count', first.id, why ?? '');
    return { record: null, setAside, countedOn, counts: all };
  }
  const counts = withoutOwnRecords(all, rows.young);
  const found = { countedOn, all, added: sum(culled.values()), counts };
  const record = recordOf(locus, { ...spawn, sire, dam }, found);
  return { record, setAside, countedOn, counts: all };
};
