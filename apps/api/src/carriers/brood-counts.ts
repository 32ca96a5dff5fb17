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

/**
 * A brood as one multinomial on its parents. Heritable culls put down to the locus, with what was seen, are added when
 * they were made before the count (those fish were no longer there to be counted); later ones were in it already. Young
 * with a record of their own are taken out: they count there.
 */
export const broodCount = (locus: Locus, rows: BroodRows): BroodCount => {
  const { spawn } = rows;
  const setAside: SetAside[] = [];
  const aside = (kind: SetAside['kind'], recordId: string, why: string): void => {
    setAside.push({ kind, recordId, fishId: null, spawnId: spawn.id, why });
  };
  const counted = scoring(locus, rows.counts);
  const countedOn = counted[0]?.countedOn ?? null;
  const none = { record: null, setAside, countedOn: null, counts: {} };
  if (countedOn === null) {
    const [first] = rows.counts;
    if (first !== undefined)
      aside(
        'class_count',
        first.id,
        `No class of spawn ${spawn.tag} names what is seen at ${locus.name.toLowerCase()}.`,
      );
    for (const cull of rows.culls)
      aside(
        'spawn_loss',
        cull.id,
        `${cull.number} culled of ${spawn.tag}: how many were free of it was not counted, so it says nothing about the share.`,
      );
    return none;
  }
  const counts: Record<string, number> = {};
  const add = (phenotype: string, number: number): void => {
    counts[phenotype] = (counts[phenotype] ?? 0) + number;
  };
  for (const row of counted) add(classPhenotype(locus, row) ?? '', row.number);
  let added = 0;
  for (const cull of rows.culls) {
    const seen = findPhenotype(locus, cull.phenotype ?? cull.reason);
    if (seen === undefined) {
      aside(
        'spawn_loss',
        cull.id,
        `${cull.number} culled of ${spawn.tag} for "${cull.reason}": what was seen at ${locus.name.toLowerCase()} is not recorded.`,
      );
    } else if (cull.onDate < countedOn) {
      add(seen.id, cull.number);
      added += cull.number;
    }
  }
  const all = { ...counts };
  const own = new Map(rows.young.map((row) => [row.fish, row.phenotype]));
  let takenOut = 0;
  for (const phenotype of own.values()) {
    if ((counts[phenotype] ?? 0) <= 0) continue;
    add(phenotype, -1);
    takenOut += 1;
  }
  if (spawn.sire === null || spawn.dam === null) {
    aside(
      'class_count',
      counted[0]?.id ?? '',
      `Spawn ${spawn.tag} was counted, but a parent is not on record: record it on the spawn, or give two young of this one brood records of their own, and the count can be used.`,
    );
    return { record: null, setAside, countedOn, counts: all };
  }
  const from = locus.scoring.fromWeeks;
  const age = ageOf(spawn, countedOn);
  if (from !== null && age !== null && age < from * 7) {
    aside(
      'class_count',
      counted[0]?.id ?? '',
      `Spawn ${spawn.tag} was counted at ${age} days, before it is visible (${Math.round(from * 7)} days).`,
    );
    return { record: null, setAside, countedOn, counts: all };
  }
  const extras = [
    ...(added > 0 ? [`${added} culled before are added`] : []),
    ...(takenOut > 0 ? [`${takenOut} with a record of their own count there`] : []),
  ];
  const total = Object.values(all).reduce((sum, n) => sum + n, 0);
  return {
    setAside,
    countedOn,
    counts: all,
    record: {
      evidence: {
        kind: 'brood',
        id: `brood ${spawn.id}`,
        sire: spawn.sire,
        dam: spawn.dam,
        counts,
      },
      kind: 'class_count',
      recordId: spawn.id,
      fishIds: [spawn.sire, spawn.dam],
      spawnId: spawn.id,
      counted: locus.phenotypes.map((one) => all[one.id] ?? 0),
      text: `brood ${spawn.tag}: ${told(locus, all)} of ${total}, counted ${countedOn}${extras.length > 0 ? ` (${extras.join('; ')})` : ''}`,
    },
  };
};
