import {
  NO_PARENT,
  type OffspringLists,
  offspringLists,
  type Pedigree,
} from '@linewright/pedigree';
import type { EvidenceRecord, StockEvidence } from './evidence.js';

/** Who is kin of whom in a stock; made once for its pedigree. */
interface Kin {
  readonly offspring: OffspringLists;
  /** The least place of all that a fish is kin of, however far: equal for two who are. */
  readonly family: Int32Array;
}

const known = new WeakMap<Pedigree, Kin>();

/** Cost: the pedigree twice, at the first question about it. */
const kinIn = (pedigree: Pedigree): Kin => {
  const standing = known.get(pedigree);
  if (standing !== undefined) return standing;
  const kin = { offspring: offspringLists(pedigree), family: familiesOf(pedigree) };
  known.set(pedigree, kin);
  return kin;
};

/** Joins each fish with its parents; the paths to the family's first are shortened by the way (Tarjan 1975). */
const familiesOf = ({ size, sire, dam }: Pedigree): Int32Array => {
  const family = Int32Array.from({ length: size }, (_, i) => i);
  const firstOf = (i: number): number => {
    let at = i;
    while (family[at] !== at) {
      family[at] = family[family[at]!]!;
      at = family[at]!;
    }
    return at;
  };
  const join = (i: number, parent: number): void => {
    if (parent === NO_PARENT) return;
    const [a, b] = [firstOf(i), firstOf(parent)];
    family[Math.max(a, b)] = Math.min(a, b);
  };
  for (let i = 0; i < size; i++) {
    join(i, sire[i]!);
    join(i, dam[i]!);
  }
  return family.map((_, i) => firstOf(i));
};

/** Where the fish stand that a record is about. */
export const placesOf = (pedigree: Pedigree, { fishIds }: EvidenceRecord): number[] =>
  fishIds.map((id) => pedigree.indexOf(id));

const parentsOf = ({ sire, dam }: Pedigree, i: number): number[] =>
  [sire[i]!, dam[i]!].filter((parent) => parent !== NO_PARENT);

const youngOf = ({ offspring: { start, young } }: Kin, i: number): Int32Array =>
  young.subarray(start[i], start[i + 1]);

/** Steps from a fish to every fish of its kin within `most` steps; a step is from parent to young or back. */
const stepsFrom = (pedigree: Pedigree, fish: number, most: number): Map<number, number> => {
  const kin = kinIn(pedigree);
  const steps = new Map([[fish, 0]]);
  let edge = [fish];
  for (let step = 1; step <= most && edge.length > 0; step++) {
    const next: number[] = [];
    for (const at of edge) {
      for (const near of [...parentsOf(pedigree, at), ...youngOf(kin, at)]) {
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

const relationTo = (pedigree: Pedigree, fish: number, about: readonly number[], kind: string) => {
  const parents = parentsOf(pedigree, fish);
  if (kind === 'class_count') {
    if (about.includes(fish)) return 'a brood of its own';
    if (parents.length === 2 && about.every((one) => parents.includes(one)))
      return 'a brood of its parents';
    if (about.some((one) => parents.includes(one))) return 'another brood of a parent';
    return 'a brood of its kin';
  }
  const one = about[0] ?? NO_PARENT;
  if (one === fish) return 'the fish itself';
  if (parents.includes(one)) return 'a parent';
  const young = [...youngOf(kinIn(pedigree), fish)];
  if (young.includes(one)) return 'its young';
  const theirs = parentsOf(pedigree, one);
  if (
    theirs.length > 0 &&
    theirs.every((parent) => parents.includes(parent)) &&
    theirs.length === parents.length
  )
    return 'a full sib';
  if (theirs.some((parent) => parents.includes(parent))) return 'a half sib';
  if (parents.some((parent) => parentsOf(pedigree, parent).includes(one))) return 'a grandparent';
  const mates = young.flatMap((each) => parentsOf(pedigree, each));
  return mates.includes(one) ? 'a mate' : 'farther kin';
};

/** Records near a fish in the pedigree, nearest first, with how they stand to it. Cost: the fish within so many steps. */
export const nearRecords = (
  { pedigree }: Pick<StockEvidence, 'pedigree'>,
  records: readonly EvidenceRecord[],
  fishId: string,
  most: number,
  within: number = NEAR,
): NearRecord[] => {
  const fish = pedigree.indexOf(fishId);
  const steps = stepsFrom(pedigree, fish, within);
  return records
    .map((record) => {
      const about = placesOf(pedigree, record);
      return { record, about, to: Math.min(...about.map((one) => steps.get(one) ?? Infinity)) };
    })
    .filter(({ to }) => to < Infinity)
    .toSorted((a, b) => a.to - b.to)
    .slice(0, most)
    .map(({ record, about }) => ({
      record,
      relation: relationTo(pedigree, fish, about, record.kind),
    }));
};

const familiesOfRecords = (pedigree: Pedigree, records: readonly EvidenceRecord[]): Set<number> => {
  const { family } = kinIn(pedigree);
  return new Set(
    records.flatMap((record) => placesOf(pedigree, record).map((fish) => family[fish]!)),
  );
};

/** All fish that some record is about kin of, however far. Cost: the pedigree once. */
export const kinOfRecords = (
  { pedigree }: Pick<StockEvidence, 'pedigree'>,
  records: readonly EvidenceRecord[],
): ReadonlySet<string> => {
  const { family } = kinIn(pedigree);
  const found = familiesOfRecords(pedigree, records);
  return new Set(pedigree.ids.filter((_, i) => found.has(family[i]!)));
};

/** Whether any of the records is about kin of the fish, however far. Cost: the records. */
export const bearsOn = (
  { pedigree }: Pick<StockEvidence, 'pedigree'>,
  records: readonly EvidenceRecord[],
  fishId: string,
): boolean =>
  familiesOfRecords(pedigree, records).has(kinIn(pedigree).family[pedigree.indexOf(fishId)]!);

/** These fish and all that descend from them. Cost: what descends from them. */
export const withDescendants = (pedigree: Pedigree, fish: readonly number[]): Set<number> => {
  const kin = kinIn(pedigree);
  const found = new Set(fish);
  for (const one of found) for (const young of youngOf(kin, one)) found.add(young);
  return found;
};
