import {
  compareFractions,
  formatFraction,
  ONE,
  sumFractions,
  toProbability,
  type Fraction,
} from '../fraction.js';
import { genotypeFits } from '../genotype.js';
import { HeredityError } from '../heredity-error.js';
import type { Genotype, Locus, LocusId } from '../locus.js';
import { assertComputable, phenotypesOf } from '../phenotypes.js';
import { HIDDEN, type Interaction, type PhenotypePart } from './cross-types.js';

export type Genotypes = Readonly<Record<LocusId, Genotype>>;

interface PartOutcome {
  readonly part: PhenotypePart;
  readonly probability: Fraction;
}

/** One visible trait of the cross: a locus by itself, or an interaction. */
interface Trait {
  readonly loci: readonly LocusId[];
  /** Outcomes for a genotype, before any other locus hides it; exactly 1 in sum. */
  outcomes(genotypes: Genotypes): readonly PartOutcome[];
  readonly hiddenBy: Locus['hiddenBy'];
  readonly name: string;
}

function locusTrait(locus: Locus): Trait {
  assertComputable(locus);
  const memory = new Map<string, PartOutcome[]>();
  return {
    loci: [locus.id],
    name: locus.name,
    hiddenBy: locus.hiddenBy,
    outcomes(genotypes) {
      const genotype = genotypes[locus.id] ?? ['', ''];
      const key = genotype.join('/');
      let known = memory.get(key);
      if (!known) {
        known = phenotypesOf(locus, genotype).map(({ phenotype, probability }) => ({
          part: { loci: [locus.id], phenotype: phenotype.id, name: phenotype.name },
          probability,
        }));
        memory.set(key, known);
      }
      return known;
    },
  };
}

function checkOutcomes(interaction: Interaction, outcomes: readonly PartOutcome[]): void {
  const sum = sumFractions(outcomes.map((one) => one.probability));
  if (compareFractions(sum, ONE) !== 0) {
    throw new HeredityError(
      'PROBABILITIES_NOT_ONE',
      `A rule of "${interaction.name}" has phenotypes whose probabilities sum to ${formatFraction(sum)}, not 1.`,
      { interaction: interaction.name, sum: formatFraction(sum) },
    );
  }
}

function interactionTrait(interaction: Interaction, loci: ReadonlyMap<LocusId, Locus>): Trait {
  const part = (phenotype: string): PhenotypePart => ({
    loci: interaction.loci,
    phenotype,
    name: phenotype,
  });
  const certain = (phenotype: string) => [{ part: part(phenotype), probability: ONE }];
  const fits = (genotypes: Genotypes, when: Readonly<Record<LocusId, string>>) =>
    Object.entries(when).every(([id, pattern]) => {
      const genotype = genotypes[id];
      const locus = loci.get(id);
      if (!genotype || !locus || !interaction.loci.includes(id)) {
        throw new HeredityError(
          'LOCUS_UNKNOWN',
          `A rule of "${interaction.name}" asks for locus ${id}, which is not among its loci (${interaction.loci.join(', ')}).`,
          { locus: id },
        );
      }
      return genotypeFits(locus, genotype, pattern);
    });
  return {
    loci: interaction.loci,
    name: interaction.name,
    hiddenBy: [],
    outcomes(genotypes) {
      if (interaction.classify) return certain(interaction.classify(genotypes));
      const rule = interaction.rules?.find((one) => fits(genotypes, one.when));
      const shows = rule?.shows ?? interaction.otherwise;
      if (shows === undefined) {
        const text = interaction.loci.map((id) => genotypes[id]?.join('/') ?? id).join(' ');
        throw new HeredityError(
          'PHENOTYPE_UNDEFINED',
          `"${interaction.name}" does not say what ${text} looks like. Add a rule, or give "otherwise".`,
          { interaction: interaction.name, genotype: text },
        );
      }
      if (typeof shows === 'string') return certain(shows);
      const outcomes = shows.map((one) => ({
        part: part(one.phenotype),
        probability: toProbability(one.probability, `probability of ${one.phenotype}`),
      }));
      checkOutcomes(interaction, outcomes);
      return outcomes;
    },
  };
}

/** The traits of a cross, in the order in which they are named. */
export function traitsOf(loci: readonly Locus[], interactions: readonly Interaction[]): Trait[] {
  const byId = new Map(loci.map((locus) => [locus.id, locus]));
  const owner = new Map<LocusId, Interaction>();
  for (const interaction of interactions) {
    for (const id of interaction.loci) {
      if (!byId.has(id) || owner.has(id)) {
        throw new HeredityError(
          'ARGUMENT_INVALID',
          `"${interaction.name}" names locus ${id}, which ${owner.has(id) ? `already belongs to "${owner.get(id)?.name ?? ''}"` : 'is not in this cross'}.`,
          { interaction: interaction.name, locus: id },
        );
      }
      owner.set(id, interaction);
    }
  }
  const named = new Set<Interaction>();
  return loci.flatMap((locus) => {
    const interaction = owner.get(locus.id);
    if (!interaction) return [locusTrait(locus)];
    if (named.has(interaction)) return [];
    named.add(interaction);
    return [interactionTrait(interaction, byId)];
  });
}

/** Every combination of parts the genotypes can show, hidden ones marked, with its probability. */
export function expressTraits(
  traits: readonly Trait[],
  genotypes: Genotypes,
): { readonly parts: readonly PhenotypePart[]; readonly probability: Fraction }[] {
  let combinations: { parts: PhenotypePart[]; probability: Fraction }[] = [
    { parts: [], probability: ONE },
  ];
  for (const trait of traits) {
    const outcomes = trait.outcomes(genotypes);
    const [first] = outcomes;
    if (first && outcomes.length === 1) {
      for (const one of combinations) one.parts.push(first.part);
      continue;
    }
    combinations = combinations.flatMap(({ parts, probability }) =>
      outcomes
        .filter((one) => one.probability.numerator > 0n)
        .map((one) => ({
          parts: [...parts, one.part],
          probability:
            one.probability.denominator === 1n
              ? probability
              : multiply(probability, one.probability),
        })),
    );
  }
  if (traits.every((trait) => trait.hiddenBy.length === 0)) return combinations;
  return combinations.map(({ parts, probability }) => ({
    parts: parts.map((part, i) => hide(part, traits[i], parts)),
    probability,
  }));
}

function multiply(a: Fraction, b: Fraction): Fraction {
  // Left unreduced: sums of classes are reduced once, at the end.
  return { numerator: a.numerator * b.numerator, denominator: a.denominator * b.denominator };
}

function hide(
  part: PhenotypePart,
  trait: Trait | undefined,
  parts: readonly PhenotypePart[],
): PhenotypePart {
  const hidden = trait?.hiddenBy.some((gate) =>
    parts.some(
      (other) =>
        other.loci.length === 1 &&
        other.loci[0] === gate.locus &&
        gate.phenotypes.includes(other.phenotype),
    ),
  );
  return hidden && trait
    ? { loci: part.loci, phenotype: HIDDEN, name: `${trait.name.toLowerCase()} not visible` }
    : part;
}

export type { Trait };
