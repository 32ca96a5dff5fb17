import type { EvidenceRecord, Parentage, StockEvidence } from './evidence.js';

interface Links {
  readonly parents: ReadonlyMap<string, readonly string[]>;
  readonly young: ReadonlyMap<string, readonly string[]>;
}

const linksOf = (parentages: readonly Parentage[]): Links => {
  const parents = new Map<string, string[]>();
  const young = new Map<string, string[]>();
  for (const { id, sire, dam } of parentages) {
    const both = [sire, dam].filter((one) => one !== null);
    parents.set(id, both);
    for (const parent of both) young.set(parent, [...(young.get(parent) ?? []), id]);
  }
  return { parents, young };
};

/** Steps from a fish to every fish of its kin within `most` steps; a step is from parent to young or back. */
const stepsFrom = (links: Links, fish: string, most: number): Map<string, number> => {
  const steps = new Map([[fish, 0]]);
  let edge = [fish];
  for (let step = 1; step <= most && edge.length > 0; step++) {
    const next: string[] = [];
    for (const at of edge) {
      for (const near of [...(links.parents.get(at) ?? []), ...(links.young.get(at) ?? [])]) {
        if (steps.has(near)) continue;
        steps.set(near, step);
        next.push(near);
      }
    }
    edge = next;
  }
  return steps;
};

const NEAR = 6;

/** Steps in the pedigree: parents and young 1; sibs, grandparents and mates 2; a parent's other young 3. */
export const NEAR_KIN = 3;

export interface NearRecord {
  readonly record: EvidenceRecord;
  readonly relation: string;
}

const relationTo = (
  stock: StockEvidence,
  links: Links,
  fish: string,
  record: EvidenceRecord,
): string => {
  const parents = links.parents.get(fish) ?? [];
  if (record.kind === 'class_count') {
    if (record.fishIds.includes(fish)) return 'a brood of its own';
    if (parents.length === 2 && record.fishIds.every((id) => parents.includes(id)))
      return 'a brood of its parents';
    if (record.fishIds.some((id) => parents.includes(id))) return 'another brood of a parent';
    return 'a brood of its kin';
  }
  const about = record.fishIds[0] ?? '';
  if (about === fish) return 'the fish itself';
  if (parents.includes(about)) return 'a parent';
  if ((links.young.get(fish) ?? []).includes(about)) return 'its young';
  const theirs = links.parents.get(about) ?? [];
  if (
    theirs.length > 0 &&
    theirs.every((id) => parents.includes(id)) &&
    theirs.length === parents.length
  )
    return 'a full sib';
  if (theirs.some((id) => parents.includes(id))) return 'a half sib';
  if (parents.some((id) => (links.parents.get(id) ?? []).includes(about))) return 'a grandparent';
  const mates = (links.young.get(fish) ?? []).flatMap((id) => links.parents.get(id) ?? []);
  return mates.includes(about) ? 'a mate' : 'farther kin';
};

/** Records near a fish in the pedigree, nearest first, with how they stand to it. */
export const nearRecords = (
  stock: StockEvidence,
  records: readonly EvidenceRecord[],
  fish: string,
  most: number,
  within: number = NEAR,
): NearRecord[] => {
  const links = linksOf(stock.parentages);
  const steps = stepsFrom(links, fish, within);
  const stepsTo = (record: EvidenceRecord): number =>
    Math.min(...record.fishIds.map((id) => steps.get(id) ?? Infinity));
  return records
    .filter((record) => stepsTo(record) < Infinity)
    .toSorted((a, b) => stepsTo(a) - stepsTo(b))
    .slice(0, most)
    .map((record) => ({ record, relation: relationTo(stock, links, fish, record) }));
};

/** All fish that some record is about kin of, however far. Cost: the pedigree once. */
export const kinOfRecords = (
  stock: StockEvidence,
  records: readonly EvidenceRecord[],
): ReadonlySet<string> => {
  const links = linksOf(stock.parentages);
  const found = new Set(records.flatMap(({ fishIds }) => fishIds));
  const edge = [...found];
  for (let at = edge.pop(); at !== undefined; at = edge.pop()) {
    for (const near of [...(links.parents.get(at) ?? []), ...(links.young.get(at) ?? [])]) {
      if (found.has(near)) continue;
      found.add(near);
      edge.push(near);
    }
  }
  return found;
};

/** Whether any of the records is about kin of the fish, however far. */
export const bearsOn = (
  stock: StockEvidence,
  records: readonly EvidenceRecord[],
  fish: string,
): boolean => {
  const links = linksOf(stock.parentages);
  const kin = stepsFrom(links, fish, Infinity);
  return records.some((record) => record.fishIds.some((id) => kin.has(id)));
};
