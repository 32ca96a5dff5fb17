import { multiplyFractions, ONE, type Fraction } from '../fraction.js';
import { formatGenotype } from '../genotype.js';
import { assertAtMost, MOST } from '../limits.js';
import type { Genotype, LocusId, LocusReference } from '../locus.js';
import { byFrequency } from './class-lists.js';
import { buildGroups, resolveLoci } from './cross.js';
import type { CrossOptions, CrossParents, GenotypeClass } from './cross-types.js';
import { groupClasses, totalLoss } from './groups.js';

/**
 * The joint genotypes expected from a pair (survivors), most frequent first. As {@link cross}, without phenotypes: loci
 * that are recorded but not computed are allowed here, since alleles segregate whatever they look like.
 */
export function crossGenotypes(
  parents: CrossParents,
  references: readonly LocusReference[],
  options: Pick<CrossOptions, 'linkage' | 'phase' | 'viability'> = {},
): { readonly classes: readonly GenotypeClass[]; readonly loss: Fraction } {
  const loci = resolveLoci(references).map((locus) => ({
    ...locus,
    computable: true,
    hiddenBy: [],
  }));
  const silent = loci.map((locus) => ({
    name: locus.id,
    loci: [locus.id],
    classify: () => locus.id,
  }));
  const results = buildGroups(parents, loci, { ...options, interactions: silent }).map(
    groupClasses,
  );
  let list: { genotypes: Readonly<Record<LocusId, Genotype>>; probability: Fraction }[] = [
    { genotypes: {}, probability: ONE },
  ];
  for (const result of results) {
    assertAtMost(
      list.length * result.genotypes.length,
      MOST.crossClasses,
      'genotypes of a cross',
      'Look at fewer loci at a time.',
    );
    list = list.flatMap((one) =>
      result.genotypes.map(({ genotypes, share }) => ({
        genotypes: { ...one.genotypes, ...genotypes },
        probability: multiplyFractions(one.probability, share),
      })),
    );
  }
  const classes = list.map((one) => ({
    ...one,
    label: loci
      .map((locus) => formatGenotype(locus, one.genotypes[locus.id] ?? ['', '']))
      .join(' '),
  }));
  return { classes: byFrequency(classes), loss: totalLoss(results) };
}
