import {
  addFractions,
  fraction,
  multiplyFractions,
  ONE,
  subtractFractions,
  toProbability,
  ZERO,
  type Fraction,
} from '../fraction.js';
import { genotypeFits } from '../genotype.js';
import { HeredityError } from '../heredity-error.js';
import type { Locus, LocusId } from '../locus.js';
import type { PhenotypePart, ViabilityRule } from './cross-types.js';
import { expressTraits, type Genotypes, type Trait } from './expression.js';
import { genotypeAt, type ZygoteTable } from './zygotes.js';

/** Chromosomes whose loci must be looked at together: one trait, one viability rule or one gate spans them. */
export interface Group {
  readonly loci: readonly Locus[];
  readonly blocks: readonly { readonly loci: readonly Locus[]; readonly zygotes: ZygoteTable }[];
  readonly traits: readonly Trait[];
  readonly viability: readonly ViabilityRule[];
}

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

/** Phenotype classes and genotypes of one group. Throws `NO_SURVIVORS` when every zygote dies. */
export function groupClasses(group: Group): GroupClasses {
  const classes = new Tally<readonly PhenotypePart[]>();
  const found: { genotypes: Genotypes; share: Fraction }[] = [];
  const total = group.blocks.reduce((product, block) => product * block.zygotes.total, 1n);
  let survivors = ZERO;

  const visit = (depth: number, genotypes: Genotypes, weight: bigint) => {
    const block = group.blocks[depth];
    if (!block) {
      const survival = survivalOf(group, genotypes);
      if (survival.numerator === 0n) return;
      const share: Fraction =
        survival.denominator === 1n && survival.numerator === 1n
          ? { numerator: weight, denominator: total }
          : { numerator: weight * survival.numerator, denominator: total * survival.denominator };
      survivors =
        survivors.denominator === share.denominator
          ? { numerator: survivors.numerator + share.numerator, denominator: share.denominator }
          : addFractions(survivors, share);
      found.push({ genotypes, share });
      for (const { parts, probability } of expressTraits(group.traits, genotypes)) {
        classes.add(
          parts.map((part) => part.phenotype).join('|'),
          () => parts,
          probability.denominator === 1n
            ? share
            : {
                numerator: share.numerator * probability.numerator,
                denominator: share.denominator * probability.denominator,
              },
        );
      }
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

  if (survivors.numerator === 0n) {
    throw new HeredityError(
      'NO_SURVIVORS',
      'No young of this cross survive: every genotype falls into a lethal class.',
    );
  }
  // Left unreduced: classes over one denominator are cheap to combine, and are reduced once at the end.
  const share = (weight: Fraction): Fraction =>
    survivors.numerator === survivors.denominator
      ? weight
      : {
          numerator: weight.numerator * survivors.denominator,
          denominator: weight.denominator * survivors.numerator,
        };
  return {
    classes: classes.entries().map(({ value, weight }) => ({ parts: value, share: share(weight) })),
    genotypes: found.map((one) => ({ genotypes: one.genotypes, share: share(one.share) })),
    survival: fraction(survivors.numerator, survivors.denominator),
  };
}

/** Share lost when groups die independently of one another. */
export function totalLoss(groups: readonly GroupClasses[]): Fraction {
  return subtractFractions(
    ONE,
    groups.reduce((product, group) => multiplyFractions(product, group.survival), ONE),
  );
}
