import { wholeNumber } from '../../components/field-rules.js';
import type { BulkCull } from './bench-entries.js';
import type { BenchLocus } from './bench-facts.js';

/** A cull of fry as it is typed. */
export interface TypedCull {
  readonly number: string;
  readonly reason: string;
  readonly heritable: boolean;
  /** '' for none in particular. */
  readonly locusId: string;
  /** Class of that locus, '' where the fry are not counted in one. */
  readonly phenotype: string;
}

export interface CullSlips {
  readonly number?: string;
  readonly reason?: string;
}

/** As many as one entry takes. */
const MOST_FRY = 5000;

const fry = wholeNumber(1, MOST_FRY);

export function slipsOfCull({ number, reason }: TypedCull): CullSlips {
  return {
    ...(!fry.safeParse(number).success && {
      number: `Give a whole number of fry, 1 to ${MOST_FRY}.`,
    }),
    ...(reason.trim() === '' && {
      reason: 'Give the reason: it is used to judge the line later.',
    }),
  };
}

/** What is entered; a locus and a class only of a fault that is thought to be heritable. */
export function cullOf(typed: TypedCull, loci: readonly BenchLocus[]): BulkCull {
  const { heritable, locusId, phenotype } = typed;
  const isKnown = loci.some(({ id }) => id === locusId);
  return {
    number: fry.parse(typed.number),
    reason: typed.reason.trim(),
    heritable,
    locusId: heritable && locusId !== '' ? locusId : null,
    seen: heritable && isKnown && phenotype !== '' ? { locusId, phenotype } : null,
  };
}
