import { findLocus } from '../catalogue/catalogue.js';
import { compareFractions, ONE, toProbability, type FractionInput } from '../fraction.js';
import { readGenotype, type GenotypeSet, type WeightedGenotype } from '../genotype.js';
import { HeredityError } from '../heredity-error.js';
import type { Locus, LocusId, LocusReference } from '../locus.js';
import { toLocusGenotypes, toPhenotypeClasses } from './class-lists.js';
import { notesOn } from './cross-notes.js';
import type { CrossExpectation, CrossOptions, CrossParents } from './cross-types.js';
import { traitsOf } from './expression.js';
import { gameteTable } from './gametes.js';
import { groupBlocks, groupClasses, totalLoss, type Group } from './groups.js';
import { linkageBlocks } from './linkage-blocks.js';
import { zygoteTable } from './zygotes.js';

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

/** Throws `LOCUS_UNKNOWN`, `ARGUMENT_INVALID` for none or one named twice. */
export function resolveLoci(references: readonly LocusReference[]): Locus[] {
  const loci = references.map((one) => findLocus(one));
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
  const lociOf = (ids: readonly LocusId[]) => ids.flatMap((id) => byId.get(id) ?? []);
  return groupBlocks(blocks, ties).map((members) => {
    const ids = new Set(members.flatMap((block) => block.loci));
    return {
      loci: loci.filter((locus) => ids.has(locus.id)),
      traits: traits.filter((trait) => trait.loci.some((id) => ids.has(id))),
      viability: viability.filter((rule) => Object.keys(rule.when).some((id) => ids.has(id))),
      blocks: members.map((block) => {
        const own = lociOf(block.loci);
        const gametes = (parent: 'sire' | 'dam') =>
          gameteTable(
            own,
            own.map((locus) => genotypeOf(parents[parent], locus, parent)),
            block[parent],
            options.phase?.[parent] ?? 'as-written',
          );
        return { loci: own, zygotes: zygoteTable(gametes('sire'), gametes('dam'), own) };
      }),
    };
  });
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
 * Uncertain genotypes are averaged over, so classes are those of a young fish taken at random over all that the parents may
 * be. A whole brood then comes from *one* of these possibilities: see {@link certainPairs} and {@link crossMixture}.
 *
 * Assumes no selection beyond that stated and no new mutation. Cost: grows with the number of phenotype classes; eight
 * unlinked loci take a few milliseconds, and loci that interact are enumerated jointly.
 *
 * @throws HeredityError `LOCUS_UNKNOWN`, `LOCUS_NOT_COMPUTABLE`, `GENOTYPE_MISSING`, `GENOTYPE_INVALID`, `ALLELE_UNKNOWN`,
 * `PROBABILITIES_NOT_ONE`, `RECOMBINATION_OUT_OF_RANGE`, `PHENOTYPE_UNDEFINED`, `NO_SURVIVORS`, `ARGUMENT_INVALID`.
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
