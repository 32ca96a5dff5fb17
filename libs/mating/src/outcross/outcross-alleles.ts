import type { WatchedAllele } from '../purpose/wanted-alleles.js';
import { MatingError } from '../mating-error.js';
import { ofMembers, outcomesOf } from '../simulated/group-members.js';
import type { BelievedLocus, LineBelief } from '../simulated/line-belief.js';
import type { AfterOutcross, OutcrossFish } from './outcross-fish.js';

/** Chances of one allele in a young of one generation. */
export interface AlleleChances extends WatchedAllele {
  /** Expected share of it among the alleles of the brood. */
  readonly frequency: number;
  /** Chance that a young carries it at all. */
  readonly carried: number;
  /** Chance that a young has it twice, as a recessive look needs. */
  readonly twice: number;
}

export interface AlleleCourse extends WatchedAllele {
  readonly inLine: number;
  readonly inPartner: number;
  readonly generations: readonly AlleleChances[];
}

/** Shares of the allele in partner, mate and the fish gone back to, 0, 1/2 or 1 each, and how likely they are together. */
interface Trio {
  readonly shares: readonly [partner: number, mate: number, back: number];
  readonly probability: number;
}

/**
 * An allele through a cross and the generations after it, summed exactly over what the three fish may be; survival by genotype is not counted.
 *
 * @throws MatingError MATING_BAD_SETTING for an allele of which nothing is believed.
 */
export function alleleCourse(
  belief: LineBelief,
  line: readonly number[],
  {
    fish: { partner, mate, back },
    after,
  }: { readonly fish: OutcrossFish; readonly after: AfterOutcross },
  watched: WatchedAllele,
  generations: number,
): AlleleCourse {
  const { locusId, alleleId } = watched;
  const locus = belief.loci.find((one) => one.locus.id === locusId);
  if (locus === undefined || !locus.locus.alleles.some(({ id }) => id === alleleId))
    throw new MatingError(
      'MATING_BAD_SETTING',
      'alleles',
      `Nothing is known of ${locusId} ${alleleId}: record genotypes or looks at that locus, or ask without that allele.`,
    );
  const trios = triosOf(locus, alleleId, [partner, mate, back]);
  const expected = (fish: number): number =>
    triosOf(locus, alleleId, [fish, fish, fish]).reduce(
      (sum, { shares, probability }) => sum + probability * shares[0],
      0,
    );
  return {
    ...watched,
    inLine: line.reduce((sum, k) => sum + expected(k), 0) / line.length,
    inPartner: expected(partner),
    generations: Array.from({ length: generations }, (_, k) => ({
      ...watched,
      ...(after === 'back' ? chancesAt(k + 1, trios) : chancesWithin(k + 1, trios)),
    })),
  };
}

/** Given what the three fish are, the two gametes of a young are drawn apart, so its chances are products. */
function chancesAt(generation: number, trios: readonly Trio[]) {
  let [frequency, carried, twice] = [0, 0, 0];
  for (const { shares, probability } of trios) {
    const [partner, mate, back] = shares;
    const [first, second] =
      generation === 1
        ? [partner, mate]
        : [back + (partner + mate - 2 * back) * 0.5 ** (generation - 1), back];
    frequency += (probability * (first + second)) / 2;
    carried += probability * (1 - (1 - first) * (1 - second));
    twice += probability * first * second;
  }
  return { frequency, carried, twice };
}

/**
 * Brother to sister: the copies in two young of one brood go together, so that both are followed, as a chance of each of the nine pairs. Given their
 * parents, the two are drawn apart.
 */
function chancesWithin(generation: number, trios: readonly Trio[]) {
  let pairs = new Float64Array(9);
  for (const { shares, probability } of trios)
    addSibs(pairs, 2 * shares[0], 2 * shares[1], probability);
  for (let t = 1; t < generation; t++) {
    const next = new Float64Array(9);
    pairs.forEach((probability, k) => addSibs(next, Math.floor(k / 3), k % 3, probability));
    pairs = next;
  }
  const having = [0, 1, 2].map(
    (copies) => pairs[3 * copies]! + pairs[3 * copies + 1]! + pairs[3 * copies + 2]!,
  );
  return {
    frequency: having[1]! / 2 + having[2]!,
    carried: having[1]! + having[2]!,
    twice: having[2]!,
  };
}

/** Adds two young of parents with so many copies each. */
function addSibs(pairs: Float64Array, sire: number, dam: number, probability: number): void {
  const [a, b] = [sire / 2, dam / 2];
  const young = [(1 - a) * (1 - b), a * (1 - b) + (1 - a) * b, a * b];
  young.forEach((one, i) =>
    young.forEach((other, j) => (pairs[3 * i + j]! += probability * one * other)),
  );
}

/** Groups of fish are independent of each other; within one, genotypes go together. */
function triosOf(
  { groups }: BelievedLocus,
  alleleId: string,
  fish: readonly [number, number, number],
): Trio[] {
  let trios: Trio[] = [{ shares: [0, 0, 0], probability: 1 }];
  for (const group of groups) {
    const places = fish.map((one) => group.fish.indexOf(one));
    const members = [...new Set(places.filter((place) => place >= 0))];
    if (members.length === 0) continue;
    const outcomes = outcomesOf(ofMembers(group, members));
    trios = trios.flatMap((before) =>
      outcomes.map(({ genotypes, probability }) => {
        const share = (k: 0 | 1 | 2): number => {
          const genotype = genotypes[members.indexOf(places[k]!)];
          return genotype === undefined
            ? before.shares[k]
            : genotype.filter((one) => one === alleleId).length / 2;
        };
        return {
          shares: [share(0), share(1), share(2)] as const,
          probability: before.probability * probability,
        };
      }),
    );
  }
  return trios;
}
