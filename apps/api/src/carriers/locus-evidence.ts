import {
  type CarrierEvidence,
  type FounderBelief,
  HeredityError,
  type Locus,
  parsePartialGenotype,
  phenotypesOf,
} from '@linewright/heredity';
import type { ParentRole } from '@linewright/pedigree';
import { hiddenParentId } from '../kinship/hidden-parents.js';
import type { LocusSettingRow } from '../stock/rows/locus-setting.entity.js';
import { MIS_SCORING } from '../loci/locus-settings.service.js';
import { frequenciesOf } from '../loci/partial-genotype.js';
import { tooYoung } from '../loci/phenotype-reading.js';
import { broodCount, type BroodCount, type BroodRows } from './brood-counts.js';
import type { EvidenceRecord, LocusEvidence, SetAside } from './evidence.js';
import type {
  EvidenceRows,
  FishLine,
  GenotypeLine,
  SeenRow,
  SpawnLine,
} from '../stock/evidence-rows.js';

const AS_FACT = new Set(['progeny', 'test_mating', 'laboratory']);

interface Stock {
  readonly fish: ReadonlyMap<string, FishLine>;
  readonly spawns: ReadonlyMap<string, SpawnLine>;
}

const basisWords: Record<string, string> = {
  progeny: 'shown by its young',
  test_mating: 'shown by a test mating',
  laboratory: 'a laboratory test',
};

/** The look of a genotype when it can have only one: all that counts of one that is assumed or follows from the parents. */
const lookOf = (locus: Locus, genotype: string): string | null => {
  const looks = new Set(
    parsePartialGenotype(locus, genotype).flatMap((one) =>
      phenotypesOf(locus, one).map((shown) => shown.phenotype.id),
    ),
  );
  return looks.size === 1 ? ([...looks][0] ?? null) : null;
};

const fromGenotype = (locus: Locus, row: GenotypeLine, tag: string): EvidenceRecord | string => {
  const base = {
    kind: 'genotype' as const,
    recordId: row.id,
    fishIds: [row.fishId],
    spawnId: null,
  };
  // Read for a fact too: one that cannot be read is set aside by the error.
  const look = lookOf(locus, row.genotype);
  if (AS_FACT.has(row.basis)) {
    return {
      ...base,
      evidence: { kind: 'genotype', id: row.id, fish: row.fishId, genotype: row.genotype },
      text: `${tag} recorded as ${row.genotype}, ${basisWords[row.basis] ?? ''}`,
    };
  }
  // Every young of a brood must count by the same rule, whichever look it has. Carriers are often put down as following
  // from the parents and their recessive sibs as assumed: leaving out the one kind would select the brood by its outcome.
  const derived = row.basis === 'parents';
  if (look === null) {
    return derived
      ? `${tag} ${row.genotype} was recorded as following from its parents: that is worked out here again, and it fits more than one appearance.`
      : `${tag} ${row.genotype} was assumed, and it fits more than one appearance: it is not counted.`;
  }
  const name = locus.phenotypes.find((one) => one.id === look)?.name ?? look;
  return {
    ...base,
    evidence: { kind: 'phenotype', id: row.id, fish: row.fishId, phenotype: look },
    text: derived
      ? `${tag} recorded as ${row.genotype} from its parents: that is worked out here again, only its appearance counts, ${name}`
      : `${tag} assumed to be ${row.genotype}: counted as its appearance, ${name}`,
  };
};

const fromSeen = (locus: Locus, row: SeenRow, tag: string): EvidenceRecord | string => {
  const known = locus.phenotypes.find((one) => one.id === row.phenotype);
  if (known === undefined)
    return `${tag}: "${row.phenotype}" is no longer among the appearances of ${locus.name.toLowerCase()}.`;
  const young = tooYoung(locus, row.ageDays);
  if (young !== null) return `${tag}: ${young}`;
  return {
    kind: 'phenotype',
    recordId: row.id,
    fishIds: [row.fishId],
    spawnId: null,
    evidence: { kind: 'phenotype', id: row.id, fish: row.fishId, phenotype: known.id },
    text: `${tag} seen to be ${known.name} on ${row.seenOn}${row.ageDays === null ? '' : ` (${row.ageDays} days old)`}`,
  };
};

const beliefsOf = (
  locus: Locus,
  stock: Stock,
  settings: readonly LocusSettingRow[],
): Pick<LocusEvidence, 'founders' | 'founderWords' | 'assumed'> & {
  misScoring: (lineId: string | null) => number;
} => {
  const ofLocus = settings.filter((one) => one.locusId === locus.id);
  const general = ofLocus.find((one) => one.lineId === null);
  const byLine = new Map(ofLocus.map((one) => [one.lineId, one]));
  const belief = (set: Record<string, number> | null): FounderBelief => ({
    alleles: frequenciesOf(locus, set),
  });
  const byFish: Record<string, FounderBelief> = {};
  for (const fish of stock.fish.values()) {
    const own = fish.lineId === null ? undefined : byLine.get(fish.lineId);
    if (fish.sire === null && fish.dam === null && own?.frequencies != null)
      byFish[fish.id] = belief(own.frequencies);
  }
  const written = (set: Record<string, number> | null): string =>
    locus.alleles
      .map((one) => `${one.symbol} ${Number((frequenciesOf(locus, set)[one.id] ?? 0).toFixed(4))}`)
      .join(', ');
  return {
    founders: { general: belief(general?.frequencies ?? null), byFish },
    founderWords: `${
      general?.frequencies == null
        ? `If every allele is equally common in founders (${written(null)}): nothing is set, so a fish of which little is known looks like a likely carrier.`
        : `If alleles are as common in founders as set (${written(general.frequencies)}).`
    }${Object.keys(byFish).length > 0 ? ` ${Object.keys(byFish).length} founders by what is set for their line.` : ''}`,
    assumed: [
      general?.frequencies == null
        ? `Founders without a setting: every allele taken as equally common (${written(null)}). Set what you know of your lines under Loci.`
        : `Founders: ${written(general.frequencies)}, as set.`,
      ...(Object.keys(byFish).length > 0
        ? [`${Object.keys(byFish).length} founders by the frequencies set for their line.`]
        : []),
      general?.misScoring == null
        ? `Appearances: ${MIS_SCORING * 100} in 100 are assumed to be misread where nothing is set.`
        : `Appearances: ${Number((general.misScoring * 100).toFixed(3))} in 100 are assumed to be misread, as set.`,
    ],
    misScoring: (lineId) =>
      (lineId === null ? undefined : byLine.get(lineId)?.misScoring) ??
      general?.misScoring ??
      MIS_SCORING,
  };
};

const withMisScoring = (record: EvidenceRecord, share: number): EvidenceRecord => ({
  ...record,
  evidence: (record.evidence.kind === 'genotype'
    ? record.evidence
    : { ...record.evidence, misScoring: share }) as CarrierEvidence,
});

/** Of a spawn whose young share a parent that nobody knows, that parent is the one its count speaks of. */
const withHiddenParents = (spawn: SpawnLine, inPedigree: ReadonlySet<string>): SpawnLine => {
  const hidden = (role: ParentRole): string | null => {
    const id = hiddenParentId(spawn.id, role);
    return inPedigree.has(id) ? id : null;
  };
  return { ...spawn, sire: spawn.sire ?? hidden('sire'), dam: spawn.dam ?? hidden('dam') };
};

/** Sorts what is recorded into what counts and what is set aside with a reason. */
class Taken {
  readonly records: EvidenceRecord[] = [];
  readonly setAside: SetAside[] = [];

  constructor(
    private readonly stock: Stock,
    private readonly misScoring: (lineId: string | null) => number,
  ) {}

  /** `read` answers the record, or why it does not count. */
  fish(
    kind: 'phenotype' | 'genotype',
    row: SeenRow | GenotypeLine,
    read: (tag: string) => EvidenceRecord | string,
  ): void {
    const fish = this.stock.fish.get(row.fishId);
    const tag = fish?.tag ?? row.fishId;
    const found = readOrWhy(tag, read);
    if (typeof found === 'string')
      this.setAside.push({ kind, recordId: row.id, fishId: row.fishId, spawnId: null, why: found });
    else this.records.push(withMisScoring(found, this.misScoring(fish?.lineId ?? null)));
  }

  brood({ sire }: SpawnLine, { record, setAside }: BroodCount): void {
    this.setAside.push(...setAside);
    if (record === null) return;
    const line = this.stock.fish.get(sire ?? '')?.lineId ?? null;
    this.records.push(withMisScoring(record, this.misScoring(line)));
  }
}

/** A record that cannot be read says so itself. */
const readOrWhy = (
  tag: string,
  read: (tag: string) => EvidenceRecord | string,
): EvidenceRecord | string => {
  try {
    return read(tag);
  } catch (error) {
    if (!(error instanceof HeredityError)) throw error;
    return `${tag}: ${error.message}`;
  }
};

const takeFish = (locus: Locus, rows: EvidenceRows, taken: Taken): void => {
  const seen = rows.seen.filter((one) => one.locusId === locus.id);
  // Looks at one fish are not independent of each other: the latest counts. Rows come in order of the day.
  const latest = new Map(seen.map((row) => [row.fishId, row.id]));
  for (const row of seen) {
    taken.fish('phenotype', row, (tag) =>
      latest.get(row.fishId) === row.id
        ? fromSeen(locus, row, tag)
        : `${tag}: the appearance of ${row.seenOn} was followed by a later one, which counts.`,
    );
  }
  for (const row of rows.genotypes.filter((one) => one.locusId === locus.id)) {
    taken.fish('genotype', row, (tag) =>
      !AS_FACT.has(row.basis) && latest.has(row.fishId)
        ? `${tag} ${row.genotype} ${row.basis === 'parents' ? 'was recorded as following from its parents, and its appearances' : 'was assumed from its appearance, whose records'} are on record themselves.`
        : fromGenotype(locus, row, tag),
    );
  }
};

/** A genotype taken as a fact says what its fish looks like: counted in its brood as well, it would count twice. */
const looksThatCount = (locus: Locus, records: readonly EvidenceRecord[]): BroodRows['young'] =>
  records.flatMap(({ evidence }) => {
    if (evidence.kind === 'phenotype')
      return [{ fish: evidence.fish, phenotype: evidence.phenotype }];
    const look = evidence.kind === 'genotype' ? lookOf(locus, evidence.genotype) : null;
    return evidence.kind === 'genotype' && look !== null
      ? [{ fish: evidence.fish, phenotype: look }]
      : [];
  });

/** By tag. */
const takeBroods = (locus: Locus, rows: EvidenceRows, stock: Stock, taken: Taken): void => {
  const counts = rows.counts.filter((one) => one.locusIds.includes(locus.id));
  const culls = rows.culls.filter((one) => one.locusId === locus.id);
  const looks = looksThatCount(locus, taken.records);
  const broods = [...new Set([...counts, ...culls].map((one) => one.spawnId))]
    .flatMap((id) => stock.spawns.get(id) ?? [])
    .toSorted((a, b) => (a.tag < b.tag ? -1 : a.tag > b.tag ? 1 : 0));
  for (const spawn of broods) {
    const ofSpawn = (one: { readonly spawnId: string }): boolean => one.spawnId === spawn.id;
    const young = looks.filter((one) => stock.fish.get(one.fish)?.spawnId === spawn.id);
    const own = { spawn, counts: counts.filter(ofSpawn), culls: culls.filter(ofSpawn), young };
    taken.brood(spawn, broodCount(locus, own));
  }
};

/**
 * Everything recorded that bears on one locus. A record that cannot be read is set aside with the reason.
 * @param inPedigree ids of the stock's pedigree, parents that nobody knows included.
 */
export const locusEvidence = (
  locus: Locus,
  rows: EvidenceRows,
  settings: readonly LocusSettingRow[],
  inPedigree: ReadonlySet<string>,
): Omit<LocusEvidence, 'key' | 'base'> => {
  const stock: Stock = {
    fish: new Map(rows.fish.map((one) => [one.id, one])),
    spawns: new Map(rows.spawns.map((one) => [one.id, withHiddenParents(one, inPedigree)])),
  };
  const { misScoring, ...beliefs } = beliefsOf(locus, stock, settings);
  const taken = new Taken(stock, misScoring);
  takeFish(locus, rows, taken);
  takeBroods(locus, rows, stock, taken);
  return { locus, records: taken.records, setAside: taken.setAside, ...beliefs };
};
