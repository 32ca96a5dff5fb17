import {
  addFractions,
  divideFractions,
  fraction,
  multiplyFractions,
  ONE,
  subtractFractions,
  sumFractions,
  toProbability,
  ZERO,
  type Fraction,
} from '../fraction.js';
import { genotypeFits, type WeightedGenotype } from '../genotype.js';
import { HeredityError } from '../heredity-error.js';
import { assertAtMost, MOST } from '../limits.js';
import type { Genotype, Locus, LocusId } from '../locus.js';
import type { PhenotypePart, ViabilityRule } from './cross-types.js';
import { expressTraits, type Genotypes, type Trait } from './expression.js';
import { genotypeAt, type ZygoteTable } from './zygotes.js';

/** Chromosomes whose loci must be looked at together: one trait, one viability rule or one gate spans them. */
export interface Group {
  readonly loci: readonly Locus[];
  readonly traits: readonly Trait[];
  readonly viability: readonly ViabilityRule[];
  /** What each parent may be at a locus of the group. */
  genotypes(locus: Locus, parent: Parent): readonly WeightedGenotype[];
  /** The young on each chromosome, of parents that may be all they may be, but for what is fixed. */
  blocks(
    fixed: FixedPair,
  ): readonly { readonly loci: readonly Locus[]; readonly zygotes: ZygoteTable }[];
}

export type Parent = 'sire' | 'dam';

/** Genotypes of one pair that may be, at some of the loci. */
export type FixedPair = Readonly<Record<Parent, Readonly<Record<LocusId, Genotype>>>>;

const NOTHING_FIXED: FixedPair = { sire: {}, dam: {} };

export interface GroupClasses {
  readonly classes: readonly {
    readonly parts: readonly PhenotypePart[];
    readonly share: Fraction;
  }[];
  /** Joint genotypes of the survivors. */
  readonly genotypes: readonly { readonly genotypes: Genotypes; readonly share: Fraction }[];
  readonly survival: Fraction;
}

/** Partitions chromosomes so that what lies in different groups is independent. */
export function groupBlocks<B extends { readonly loci: readonly LocusId[] }>(
  blocks: readonly B[],
  ties: readonly (readonly LocusId[])[],
): B[][] {
  const home = blocks.map((_, i) => i);
  const root = (i: number): number => {
    let at = i;
    while (home[at] !== at) at = home[at] ?? at;
    return at;
  };
  const blockOf = new Map(blocks.flatMap((block, i) => block.loci.map((id) => [id, i] as const)));
  for (const tie of ties) {
    const members = tie.flatMap((id) => blockOf.get(id) ?? []);
    const first = members[0];
    if (first === undefined) continue;
    for (const other of members) home[root(other)] = root(first);
  }
  const groups = new Map<number, B[]>();
  blocks.forEach((block, i) => {
    const list = groups.get(root(i)) ?? [];
    list.push(block);
    groups.set(root(i), list);
  });
  return [...groups.values()];
}

function survivalOf(group: Group, genotypes: Genotypes): Fraction {
  if (group.viability.length === 0 && group.loci.every((locus) => locus.viability.length === 0)) {
    return ONE;
  }
  const byId = new Map(group.loci.map((locus) => [locus.id, locus]));
  let survival = ONE;
  for (const rule of group.viability) {
    const fits = Object.entries(rule.when).every(([id, pattern]) => {
      const locus = byId.get(id);
      const genotype = genotypes[id];
      return (
        locus !== undefined && genotype !== undefined && genotypeFits(locus, genotype, pattern)
      );
    });
    if (fits) survival = multiplyFractions(survival, toProbability(rule.survival, 'survival'));
  }
  for (const locus of group.loci) {
    const genotype = genotypes[locus.id];
    const effect =
      genotype && locus.viability.find((v) => genotypeFits(locus, genotype, v.genotype));
    if (effect) survival = multiplyFractions(survival, toProbability(effect.survival, 'survival'));
  }
  return survival;
}

/** Sums weights by key exactly, keeping one common denominator at a time. */
class Tally<T> {
  readonly #entries = new Map<string, { value: T; weight: Fraction }>();

  add(key: string, value: () => T, weight: Fraction): void {
    const entry = this.#entries.get(key);
    if (!entry) this.#entries.set(key, { value: value(), weight });
    else if (entry.weight.denominator === weight.denominator) {
      // Denominators nearly always agree within a group, and reducing every sum would be most of the work.
      entry.weight = {
        numerator: entry.weight.numerator + weight.numerator,
        denominator: weight.denominator,
      };
    } else entry.weight = addFractions(entry.weight, weight);
  }

  entries(): { value: T; weight: Fraction }[] {
    return [...this.#entries.values()];
  }
}

/** Every pair that may be at `loci`, with its weight. Throws `TOO_LARGE`. */
export function pairsThatMayBe(
  group: Group,
  loci: readonly Locus[],
): { readonly weight: Fraction; readonly fixed: FixedPair }[] {
  let list: { weight: Fraction; fixed: FixedPair }[] = [{ weight: ONE, fixed: NOTHING_FIXED }];
  for (const locus of loci) {
    for (const parent of ['sire', 'dam'] as const) {
      const open = group.genotypes(locus, parent);
      assertAtMost(
        list.length * open.length,
        MOST.possiblePairs,
        'pairs that the two may be',
        'Look at fewer uncertain loci at a time.',
      );
      list = list.flatMap(({ weight, fixed }) =>
        open.map(({ genotype, probability }) => ({
          weight: multiplyFractions(weight, probability),
          fixed: { ...fixed, [parent]: { ...fixed[parent], [locus.id]: genotype } },
        })),
      );
    }
  }
  return list;
}

const isUncertain = (group: Group, locus: Locus): boolean =>
  group.genotypes(locus, 'sire').length > 1 || group.genotypes(locus, 'dam').length > 1;

/** Loci of a group that are not certain in both parents, and of those the ones on which it hangs how many young live. */
export function uncertainLoci(group: Group): { readonly all: Locus[]; readonly deciding: Locus[] } {
  const ruled = new Set(group.viability.flatMap((rule) => Object.keys(rule.when)));
  const all = group.loci.filter((locus) => isUncertain(group, locus));
  return {
    all,
    deciding: all.filter((locus) => locus.viability.length > 0 || ruled.has(locus.id)),
  };
}

/**
 * Phenotype classes and genotypes of one group.
 *
 * A brood comes from one pair, whatever it is, and is known by its living young. Where it is uncertain how many of them live,
 * the classes are therefore worked out for each pair that may be, as shares of *its* living young, and averaged with the weights
 * of the pairs; pairs with no living young are left out. Pooling the zygotes of all pairs first would count the pairs by the
 * young they keep.
 *
 * Throws `NO_SURVIVORS` when every zygote of every pair dies, `TOO_LARGE`.
 */
export function groupClasses(group: Group): GroupClasses {
  const { deciding } = uncertainLoci(group);
  const pairs = pairsThatMayBe(group, deciding).map(({ weight, fixed }) => ({
    weight,
    found: classesOfPair(group, fixed),
  }));
  const living = pairs.flatMap(({ weight, found }) => (found ? [{ weight, found }] : []));
  const [only] = living;
  if (!only) {
    throw new HeredityError(
      'NO_SURVIVORS',
      'No young of this cross survive: every genotype falls into a lethal class.',
    );
  }
  if (pairs.length === 1) return only.found;
  const total = sumFractions(living.map((one) => one.weight));
  const classes = new Tally<readonly PhenotypePart[]>();
  const genotypes = new Tally<Genotypes>();
  let survival = ZERO;
  for (const { weight, found } of living) {
    const own = divideFractions(weight, total);
    survival = addFractions(survival, multiplyFractions(weight, found.survival));
    for (const { parts, share } of found.classes)
      classes.add(classKey(parts), () => parts, multiplyFractions(share, own));
    for (const { genotypes: young, share } of found.genotypes)
      genotypes.add(JSON.stringify(young), () => young, multiplyFractions(share, own));
  }
  return {
    classes: classes.entries().map(({ value, weight }) => ({ parts: value, share: weight })),
    genotypes: genotypes
      .entries()
      .map(({ value, weight }) => ({ genotypes: value, share: weight })),
    survival,
  };
}

const classKey = (parts: readonly PhenotypePart[]): string =>
  parts.map((part) => part.phenotype).join('|');

/** Null when every zygote dies. */
export function classesOfPair(group: Group, fixed: FixedPair): GroupClasses | null {
  const blocks = group.blocks(fixed);
  assertAtMost(
    blocks.reduce((product, block) => product * block.zygotes.zygotes.length, 1),
    MOST.jointGenotypes,
    `joint genotypes at ${group.loci.map((locus) => locus.id).join(', ')}, which depend on one another`,
    'Look at fewer of these loci at a time.',
  );
  const total = blocks.reduce((product, block) => product * block.zygotes.total, 1n);
  const young = new LivingYoung(group, total);
  const visit = (depth: number, genotypes: Genotypes, weight: bigint) => {
    const block = blocks[depth];
    if (!block) {
      young.add(genotypes, weight);
      return;
    }
    for (const zygote of block.zygotes.zygotes) {
      const more: Record<LocusId, readonly [string, string]> = { ...genotypes };
      block.loci.forEach((locus, i) => {
        more[locus.id] = genotypeAt(locus, zygote.genotypes[i] ?? [0, 0]);
      });
      visit(depth + 1, more, weight * zygote.weight);
    }
  };
  visit(0, {}, 1n);
  return young.classes();
}

/**
 * Living young of one pair, by genotype and by class. Fractions are left unreduced until the end: over one denominator they are cheap to
 * combine, and are reduced once.
 */
class LivingYoung {
  readonly #classes = new Tally<readonly PhenotypePart[]>();
  readonly #genotypes: { genotypes: Genotypes; share: Fraction }[] = [];
  #survivors = ZERO;

  constructor(
    private readonly group: Group,
    private readonly total: bigint,
  ) {}

  /** Zygotes of this genotype, `weight` of the total. */
  add(genotypes: Genotypes, weight: bigint): void {
    const survival = survivalOf(this.group, genotypes);
    if (survival.numerator === 0n) return;
    const share: Fraction =
      survival.denominator === 1n && survival.numerator === 1n
        ? { numerator: weight, denominator: this.total }
        : {
            numerator: weight * survival.numerator,
            denominator: this.total * survival.denominator,
          };
    this.#survivors =
      this.#survivors.denominator === share.denominator
        ? { numerator: this.#survivors.numerator + share.numerator, denominator: share.denominator }
        : addFractions(this.#survivors, share);
    this.#genotypes.push({ genotypes, share });
    for (const { parts, probability } of expressTraits(this.group.traits, genotypes))
      this.#classes.add(classKey(parts), () => parts, partOf(share, probability));
  }

  /** Null when none lives. */
  classes(): GroupClasses | null {
    const all = this.#survivors;
    if (all.numerator === 0n) return null;
    const ofLiving = (weight: Fraction): Fraction =>
      all.numerator === all.denominator
        ? weight
        : {
            numerator: weight.numerator * all.denominator,
            denominator: weight.denominator * all.numerator,
          };
    return {
      classes: this.#classes
        .entries()
        .map(({ value, weight }) => ({ parts: value, share: ofLiving(weight) })),
      genotypes: this.#genotypes.map(({ genotypes, share }) => ({
        genotypes,
        share: ofLiving(share),
      })),
      survival: fraction(all.numerator, all.denominator),
    };
  }
}

const partOf = (share: Fraction, probability: Fraction): Fraction =>
  probability.denominator === 1n
    ? share
    : {
        numerator: share.numerator * probability.numerator,
        denominator: share.denominator * probability.denominator,
      };

/** Share lost when groups die independently of one another. */
export function totalLoss(groups: readonly GroupClasses[]): Fraction {
  return subtractFractions(
    ONE,
    groups.reduce((product, group) => multiplyFractions(product, group.survival), ONE),
  );
}
