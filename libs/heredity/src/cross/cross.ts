import { findLocus } from '../catalogue/catalogue.js';
import { compareFractions, ONE, toProbability, type FractionInput } from '../fraction.js';
import { readGenotype, type GenotypeSet, type WeightedGenotype } from '../genotype.js';
import { HeredityError } from '../heredity-error.js';
import { assertAtMost, MOST } from '../limits.js';
import type { Locus, LocusReference } from '../locus.js';
import { toLocusGenotypes, toPhenotypeClasses } from './class-lists.js';
import { notesOn } from './cross-notes.js';
import type { CrossExpectation, CrossOptions, CrossParents } from './cross-types.js';
import { traitsOf } from './expression.js';
import { gameteTable, type GameteTable } from './gametes.js';
import {
  groupBlocks,
  groupClasses,
  totalLoss,
  type FixedPair,
  type Group,
  type Parent,
} from './groups.js';
import { linkageBlocks, type LinkageBlock } from './linkage-blocks.js';
import { zygoteTable, type ZygoteTable } from './zygotes.js';

/** Throws `GENOTYPE_MISSING`. */
export function genotypeOf(
  set: GenotypeSet,
  locus: Locus,
  parent: 'sire' | 'dam',
): WeightedGenotype[] {
  const input = Object.hasOwn(set, locus.id) ? set[locus.id] : undefined;
  if (input === undefined) {
    throw new HeredityError(
      'GENOTYPE_MISSING',
      `The ${parent} has no genotype at ${locus.id} (${locus.name}). Give one, or leave the locus out.`,
      { locus: locus.id, parent },
    );
  }
  return readGenotype(locus, input);
}

/** Throws `LOCUS_UNKNOWN`, `ARGUMENT_INVALID` for none or one named twice, `TOO_LARGE`. */
export function resolveLoci(references: readonly LocusReference[]): Locus[] {
  assertAtMost(references.length, MOST.loci, 'loci', 'Look at fewer loci at a time.');
  const loci = references.map((one) => findLocus(one));
  for (const locus of loci)
    assertAtMost(
      locus.alleles.length,
      MOST.alleles,
      `alleles at ${locus.id}`,
      'Put alleles that cannot be told apart together.',
    );
  const ids = new Set(loci.map((locus) => locus.id));
  if (loci.length === 0 || ids.size < loci.length) {
    throw new HeredityError(
      'ARGUMENT_INVALID',
      'A cross needs at least one locus, and each locus once.',
      { loci: loci.map((locus) => locus.id) },
    );
  }
  return loci;
}

/** The parts of a cross that are independent of one another, with their zygotes. */
export function buildGroups(
  parents: CrossParents,
  loci: readonly Locus[],
  options: CrossOptions,
): Group[] {
  const interactions = options.interactions ?? [];
  const viability = options.viability ?? [];
  const byId = new Map(loci.map((locus) => [locus.id, locus]));
  for (const rule of viability) {
    for (const id of Object.keys(rule.when)) {
      if (!byId.has(id)) {
        throw new HeredityError(
          'LOCUS_UNKNOWN',
          `A viability rule names ${id}, which is not in this cross.`,
          { locus: id },
        );
      }
    }
  }
  const traits = traitsOf(loci, interactions);
  const blocks = linkageBlocks(
    loci.map((locus) => locus.id),
    options.linkage ?? [],
  );
  const ties = [
    ...interactions.map((one) => one.loci),
    ...viability.map((rule) => Object.keys(rule.when)),
    ...loci.flatMap((locus) => locus.hiddenBy.map((gate) => [locus.id, gate.locus])),
  ];
  return groupBlocks(blocks, ties).map((members) => {
    const ids = new Set(members.flatMap((block) => block.loci));
    const own = loci.filter((locus) => ids.has(locus.id));
    const read = new Map(
      own.flatMap((locus) =>
        (['sire', 'dam'] as const).map(
          (parent) =>
            [`${parent} ${locus.id}`, genotypeOf(parents[parent], locus, parent)] as const,
        ),
      ),
    );
    const genotypes = (locus: Locus, parent: Parent) => read.get(`${parent} ${locus.id}`) ?? [];
    const tables = members.map((block) => zygotesOf(block, own, genotypes, options));
    return {
      loci: own,
      traits: traits.filter((trait) => trait.loci.some((id) => ids.has(id))),
      viability: viability.filter((rule) => Object.keys(rule.when).some((id) => ids.has(id))),
      genotypes,
      blocks: (fixed) => tables.map((table) => table(fixed)),
    };
  });
}

/** The zygotes of one chromosome, worked out once for each pair of genotypes fixed on it. */
function zygotesOf(
  block: LinkageBlock,
  among: readonly Locus[],
  genotypes: Group['genotypes'],
  options: CrossOptions,
): (fixed: FixedPair) => { readonly loci: readonly Locus[]; readonly zygotes: ZygoteTable } {
  const loci = block.loci.flatMap((id) => among.find((locus) => locus.id === id) ?? []);
  const remember = <T>(make: (fixed: FixedPair, parent: Parent) => T) => {
    const known = new Map<string, T>();
    return (fixed: FixedPair, parent: Parent): T => {
      const key = `${parent} ${loci.map((locus) => fixed[parent][locus.id]?.join('/') ?? '').join(' ')}`;
      const found = known.get(key) ?? make(fixed, parent);
      known.set(key, found);
      return found;
    };
  };
  const gametes = remember((fixed, parent) =>
    gameteTable(
      loci,
      loci.map((locus): readonly WeightedGenotype[] => {
        const genotype = fixed[parent][locus.id];
        return genotype ? [{ genotype, probability: ONE }] : genotypes(locus, parent);
      }),
      block[parent],
      options.phase?.[parent] ?? 'as-written',
    ),
  );
  const joined = new Map<GameteTable, Map<GameteTable, ZygoteTable>>();
  return (fixed) => {
    const [sire, dam] = [gametes(fixed, 'sire'), gametes(fixed, 'dam')];
    const ofSire = joined.get(sire) ?? new Map<GameteTable, ZygoteTable>();
    joined.set(sire, ofSire);
    const zygotes = ofSire.get(dam) ?? zygoteTable(sire, dam, loci);
    ofSire.set(dam, zygotes);
    return { loci, zygotes };
  };
}

function lossReasons(groups: readonly Group[]): string[] {
  const deadly = ({ survival }: { readonly survival: FractionInput }) =>
    compareFractions(toProbability(survival, 'survival'), ONE) < 0;
  const reasons = groups.flatMap((group) => [
    ...group.viability.filter(deadly).map((rule) => rule.why),
    ...group.loci.flatMap((locus) => locus.viability.filter(deadly).map((effect) => effect.why)),
  ]);
  return [...new Set(reasons)];
}

/**
 * The phenotype classes expected from a pair, in exact fractions.
 *
 * Each parent passes one allele of each locus with equal chance (Mendel 1866); linked loci follow one chromosome and change
 * to the other in each interval with its recombination fraction, intervals independent. What a genotype shows comes from the
 * loci's own rules, from interactions given in `options`, and from other loci of the cross that hide one (cambodian hides
 * blond). Classes are shares of the survivors and sum to exactly 1; `loss` is the share of zygotes that die.
 *
 * Uncertain genotypes are averaged over: a class's share is the mean, over all that the parents may be, of its share among
 * the *living* young of such a pair, weighted by how likely the pair is. (A pair that loses young to a lethal class counts as
 * much as one that does not: the brood comes from one pair, and is as large as it is.) For how many to raise the mean is not
 * enough: see `possibleShares`.
 *
 * Assumes no selection beyond that stated and no new mutation. Cost: grows with the number of phenotype classes; eight
 * unlinked loci take a few milliseconds, and loci that interact are enumerated jointly.
 *
 * @throws HeredityError `LOCUS_UNKNOWN`, `LOCUS_NOT_COMPUTABLE`, `GENOTYPE_MISSING`, `GENOTYPE_INVALID`, `ALLELE_UNKNOWN`,
 * `PROBABILITIES_NOT_ONE`, `RECOMBINATION_OUT_OF_RANGE`, `PHENOTYPE_UNDEFINED`, `NO_SURVIVORS`, `ARGUMENT_INVALID`,
 * `TOO_LARGE` (over 10,000 classes, 100,000 joint genotypes of loci that act together, 40 loci, 7 alleles).
 * @example
 * const brood = cross({ sire: { c: 'C/c', bl: 'Bl/bl' }, dam: { c: 'C/c', bl: 'Bl/bl' } }, ['c', 'bl']);
 * brood.classes[0].label; // 'dark body, royal blue', probability 3/8
 */
export function cross(
  parents: CrossParents,
  references: readonly LocusReference[],
  options: CrossOptions = {},
): CrossExpectation {
  const loci = resolveLoci(references);
  const groups = buildGroups(parents, loci, options);
  const results = groups.map(groupClasses);
  const loss = totalLoss(results);
  return {
    loci: loci.map((locus) => locus.id),
    classes: toPhenotypeClasses(results, loci),
    loss,
    lossReasons: loss.numerator === 0n ? [] : lossReasons(groups),
    perLocus: toLocusGenotypes(results, loci),
    notes: notesOn(loci, parents, options),
  };
}
