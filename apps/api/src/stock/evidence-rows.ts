import type { EntityManager } from 'typeorm';
import { type RecordMark, stateOf } from './records-state.js';

export interface FishLine {
  id: string;
  tag: string;
  lineId: string | null;
  spawnId: string | null;
  sire: string | null;
  dam: string | null;
  mixed: boolean;
  spawnTag: string | null;
}
export interface SeenRow {
  id: string;
  fishId: string;
  locusId: string;
  phenotype: string;
  seenOn: string;
  ageDays: number | null;
}
export interface GenotypeLine {
  id: string;
  fishId: string;
  locusId: string;
  genotype: string;
  basis: string;
}
export interface CountRow {
  id: string;
  spawnId: string;
  locusIds: string[];
  phenotype: string;
  number: number;
  countedOn: string;
}
export interface CullRow {
  id: string;
  spawnId: string;
  locusId: string;
  phenotype: string | null;
  reason: string;
  number: number;
  onDate: string;
}
export interface SpawnLine {
  id: string;
  tag: string;
  sire: string | null;
  dam: string | null;
  hatchDate: string | null;
}

export interface EvidenceRows {
  readonly state: string;
  readonly fish: FishLine[];
  readonly seen: SeenRow[];
  readonly genotypes: GenotypeLine[];
  readonly counts: CountRow[];
  readonly culls: CullRow[];
  readonly spawns: SpawnLine[];
}

const MARKS: readonly RecordMark[] = [
  ...(['genotype', 'phenotype', 'class_count', 'spawn_loss_of_look'] as const),
  ...(['own_locus', 'locus_setting'] as const),
  // Tags are in the words of the evidence, and a brood's day of hatching says whether it was old enough to be counted.
  ...(['fish_named', 'spawn_named'] as const),
];

const FISH = `
  SELECT f.id, f.tag, f.line_id AS "lineId", f.spawn_id AS "spawnId", s.sire_id AS sire, s.dam_id AS dam,
    s.mixed_origin IS TRUE AS mixed, s.tag AS "spawnTag"
  FROM fish f LEFT JOIN spawn s ON s.id = f.spawn_id ORDER BY f.id`;
const SEEN = `
  SELECT p.id, p.fish_id AS "fishId", p.locus_id AS "locusId", p.phenotype, p.seen_on::text AS "seenOn",
    p.age_days AS "ageDays"
  FROM standing_phenotype p JOIN standing_fish f ON f.id = p.fish_id ORDER BY p.seen_on, p.id`;
const GENOTYPES = `
  SELECT g.id, g.fish_id AS "fishId", g.locus_id AS "locusId", g.genotype, g.basis
  FROM standing_genotype g JOIN standing_fish f ON f.id = g.fish_id ORDER BY g.id`;
const COUNTS = `
  SELECT c.id, c.spawn_id AS "spawnId", c.locus_ids AS "locusIds", c.phenotype, c.number,
    c.counted_on::text AS "countedOn"
  FROM standing_class_count c JOIN standing_spawn s ON s.id = c.spawn_id ORDER BY c.counted_on, c.id`;
const CULLS = `
  SELECT l.id, l.spawn_id AS "spawnId", l.locus_id AS "locusId", l.phenotype, l.reason, l.number,
    l.on_date::text AS "onDate"
  FROM standing_spawn_loss l JOIN standing_spawn s ON s.id = l.spawn_id
  WHERE l.heritable AND l.locus_id IS NOT NULL
  ORDER BY l.on_date, l.id`;
const SPAWNS = `
  SELECT id, tag, sire_id AS sire, dam_id AS dam, hatch_date::text AS "hatchDate"
  FROM standing_spawn`;

export const readState = (m: EntityManager): Promise<string> => stateOf(m, MARKS);

type WithParents = Pick<SpawnLine, 'sire' | 'dam'>;

/** Rows of whose parents those that whoever asks does not see are unknown: nothing that is recorded of them may be told, and no other fish stands in. */
const ofSeenParents = <Row extends WithParents>(
  rows: readonly Row[],
  seen: ReadonlySet<string>,
): Row[] => {
  const parent = (id: string | null): string | null => (id !== null && seen.has(id) ? id : null);
  return rows.map((row) => ({ ...row, sire: parent(row.sire), dam: parent(row.dam) }));
};

/** All that evidence is made of, as far as whoever asks sees it. Cost: linear in the records. */
export const readEvidenceRows = async (m: EntityManager): Promise<EvidenceRows> => {
  const fish = (await m.query(FISH)) as FishLine[];
  const seen = new Set(fish.map(({ id }) => id));
  const spawns = (await m.query(SPAWNS)) as SpawnLine[];
  return {
    ...(await readRecords(m)),
    fish: ofSeenParents(fish, seen),
    spawns: ofSeenParents(spawns, seen),
  };
};

const readRecords = async (m: EntityManager): Promise<Omit<EvidenceRows, 'fish' | 'spawns'>> => ({
  state: await readState(m),
  seen: (await m.query(SEEN)) as SeenRow[],
  genotypes: (await m.query(GENOTYPES)) as GenotypeLine[],
  counts: (await m.query(COUNTS)) as CountRow[],
  culls: (await m.query(CULLS)) as CullRow[],
});
