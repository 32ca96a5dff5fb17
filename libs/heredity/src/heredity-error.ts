/** Every way this library refuses its input. */
export type HeredityErrorCode =
  | 'ALLELE_UNKNOWN'
  | 'LOCUS_UNKNOWN'
  | 'LOCUS_WITHDRAWN'
  | 'LOCUS_NOT_COMPUTABLE'
  | 'LOCUS_INVALID'
  | 'LOCUS_ALLELE_IN_USE'
  | 'GENOTYPE_INVALID'
  | 'GENOTYPE_INCOMPLETE'
  | 'GENOTYPE_MISSING'
  | 'PHENOTYPE_UNKNOWN'
  | 'PHENOTYPE_UNDEFINED'
  | 'PROBABILITY_OUT_OF_RANGE'
  | 'PROBABILITIES_NOT_ONE'
  | 'FRACTION_INVALID'
  | 'RECOMBINATION_OUT_OF_RANGE'
  | 'COUNT_NEGATIVE'
  | 'COUNT_NOT_WHOLE'
  | 'COUNT_IS_PERCENTAGE'
  | 'COUNT_TOTAL_MISSING'
  | 'COUNT_TOTAL_MISMATCH'
  | 'CLASSES_MISMATCH'
  | 'NO_SURVIVORS'
  | 'BROOD_SIZE_UNREACHABLE'
  | 'FISH_UNKNOWN'
  | 'EVIDENCE_IMPOSSIBLE'
  | 'TOO_DENSE'
  | 'TOO_LARGE'
  | 'CANCELLED'
  | 'ARGUMENT_INVALID';

/** What was wrong, by field, for programs that show the message in their own way. */
export type HeredityErrorDetails = Readonly<Record<string, string | number | readonly string[]>>;

/**
 * The one error class of this library.
 *
 * `message` names the value and the remedy; `code` is stable; `details` holds the values by name.
 *
 * @example
 * try { parseGenotype('bl', 'Bl/xx'); } catch (error) { error.code === 'ALLELE_UNKNOWN'; }
 */
export class HeredityError extends Error {
  override readonly name = 'HeredityError';

  constructor(
    readonly code: HeredityErrorCode,
    message: string,
    readonly details: HeredityErrorDetails = {},
  ) {
    super(message);
  }
}
