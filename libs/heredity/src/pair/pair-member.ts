import { toFraction } from '../fraction.js';
import type { GenotypeInput, GenotypeSet } from '../genotype.js';
import { genotypeFits, parsePartialGenotype } from '../genotype.js';
import type { Genotype, LocusId } from '../locus.js';

/** Something seen on a fish that a planned pair may be warned about, whatever is known of its genotype. */
export type WarningTrait =
  | 'melano'
  | 'double-tail'
  | 'rosetail'
  | 'marble'
  | 'opaque'
  | 'metallic'
  | 'albino'
  | 'dumbo'
  | 'giant'
  | 'crowntail'
  | 'red-loss'
  | 'butterfly';

/** One parent of a planned pair. Genotypes may be partial (`M/-`) or uncertain; traits are what is seen. */
export interface PairMember {
  readonly genotypes: GenotypeSet;
  readonly traits?: readonly WarningTrait[];
}

export type Answer = 'yes' | 'possible' | 'no' | 'unknown';

function possibleGenotypes(locus: LocusId, input: GenotypeInput | undefined): Genotype[] {
  if (input === undefined) return [];
  if (typeof input === 'string') return parsePartialGenotype(locus, input);
  if (typeof input[0] === 'string') return [input as Genotype];
  return (input as Exclude<GenotypeInput, string | Genotype>).flatMap(
    ({ genotype, probability }) =>
      toFraction(probability).numerator === 0n
        ? []
        : typeof genotype === 'string'
          ? parsePartialGenotype(locus, genotype)
          : [genotype],
  );
}

/** Whether a fish has a genotype that fits `pattern`, as far as its record tells. */
export function hasGenotype(member: PairMember, locus: LocusId, pattern: string): Answer {
  const possible = possibleGenotypes(locus, member.genotypes[locus]);
  if (possible.length === 0) return 'unknown';
  const fitting = possible.filter((genotype) => genotypeFits(locus, genotype, pattern)).length;
  return fitting === possible.length ? 'yes' : fitting > 0 ? 'possible' : 'no';
}

/** Whether a fish shows a trait: seen on it, or certain from its genotype. */
export function showsTrait(
  member: PairMember,
  trait: WarningTrait,
  locus?: LocusId,
  pattern?: string,
): Answer {
  if (member.traits?.includes(trait)) return 'yes';
  return locus !== undefined && pattern !== undefined
    ? hasGenotype(member, locus, pattern)
    : 'unknown';
}
