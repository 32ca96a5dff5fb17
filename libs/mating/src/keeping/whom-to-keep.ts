import type { Locus } from '@linewright/heredity';
import { coancestryBlock, inbreedingCoefficients } from '@linewright/kinship';
import type { Pedigree } from '@linewright/pedigree';
import type { PairingCandidate } from '../candidate.js';
import { MatingError } from '../mating-error.js';
import { JudgedWorth, type WorthBasis } from '../worth/judged-worth.js';
import { carriedBy, type AlleleInLine, type CarriedAllele } from './carried-alleles.js';
import type { ToKeep } from './how-many.js';
import { YoungValues, type YoungValue } from './young-values.js';

/** From this chance on a young is kept as a last carrier, whatever its place. A guide of our own without a source. */
export const LAST_CARRIER_FROM = 0.5;

/** Points nearer than this are the same figure, rounded in another order. */
const ALIKE = 1e-9;

/** All that is asked about when a brood is sorted. */
export interface KeepingInput {
  readonly pedigree: Pedigree;
  readonly worth: WorthBasis;
  readonly loci?: readonly Locus[];
  /** Young of the brood that are alive. */
  readonly young: readonly PairingCandidate[];
  /** Fish that stand for the line as the young's mates. */
  readonly mates: readonly PairingCandidate[];
  readonly alleles: readonly AlleleInLine[];
  readonly toKeep: ToKeep;
  /** Correlations of the errors of the young's values, young x young, by trait. */
  readonly errorCorrelation?: Readonly<Record<string, Float64Array>>;
}

/**
 * What speaks for a young: among those to keep and told apart from the first that is not; not told apart from a young on the other side of
 * the cut; behind all of them; or kept as the last carrier whatever its place.
 */
export type KeepingAdvice = 'keep' | 'cannot-tell' | 'others-first' | 'last-carrier';

/** One young of a brood, and what it is to the line. */
export interface YoungToKeep extends YoungValue {
  readonly id: string;
  /** Place by worth among the young of its sex, from 1; those worth the same share one. The unsexed are a group of their own. */
  readonly place: number;
  readonly of: number;
  readonly advice: KeepingAdvice;
  readonly alleles: readonly CarriedAllele[];
}

/** A brood put in the order of what its young are worth to the line. */
export interface BroodKeeping {
  /** Highest worth first; ties by id. */
  readonly young: readonly YoungToKeep[];
  /** Mean coancestry of a young with the mates; all full sibs have the same. */
  readonly kinshipWithLine: number;
}

/**
 * Whom of a brood to keep: each young's worth as a parent ({@link YoungValues}), the wanted alleles it may carry, how few others carry them,
 * and advice by sex. Unsexed young are put beside the sum of both.
 *
 * @throws MatingError MATING_TOO_FEW_FISH without young or mates; as {@link JudgedWorth}.
 */
export function whomToKeep(input: KeepingInput): BroodKeeping {
  const { pedigree, young, mates, alleles } = input;
  if (young.length === 0 || mates.length === 0)
    throw new MatingError(
      'MATING_TOO_FEW_FISH',
      young.length === 0 ? 'young' : 'mates',
      `There are ${String(young.length)} young and ${String(mates.length)} fish of the line to hold them against; it takes one of each at least.`,
    );
  const [rows, columns] = [young, mates].map((list) =>
    Int32Array.from(list, ({ id }) => pedigree.indexOf(id)),
  ) as [Int32Array, Int32Array];
  const block = coancestryBlock(pedigree, rows, columns);
  const inbreeding = inbreedingCoefficients(pedigree);
  const judged = new JudgedWorth(input.worth, {
    males: young,
    females: mates,
    inbreeding: ({ id }) => inbreeding[pedigree.indexOf(id)]!,
    coancestry: (m, f) => block[m * mates.length + f]!,
    ...(input.loci && { loci: input.loci }),
  });
  const values = new YoungValues(judged, young, input.errorCorrelation);
  const told = young.map(({ id }, m) => ({
    ...{ id, ...values.of(m) },
    alleles: alleles.map((one) => carriedBy(one, id)),
  }));
  const advised = adviceOf(input, values, told);
  return {
    young: inOrder(told).map((m) => ({ ...told[m]!, ...advised[m]! })),
    kinshipWithLine: block.reduce((sum, each) => sum + each, 0) / block.length,
  };
}

type Told = Omit<YoungToKeep, 'place' | 'of' | 'advice'>;
type Advised = Pick<YoungToKeep, 'place' | 'of' | 'advice'>;

const inOrder = (told: readonly Told[], of = told.map((_, m) => m)): number[] =>
  of.toSorted((a, b) => told[b]!.worth - told[a]!.worth || (told[a]!.id < told[b]!.id ? -1 : 1));

/** Young of one sex are held against each other only: so many of each are kept. */
function adviceOf(
  { young, toKeep }: KeepingInput,
  values: YoungValues,
  told: readonly Told[],
): Advised[] {
  const kept = {
    male: toKeep.males,
    female: toKeep.females,
    unknown: toKeep.males + toKeep.females,
  };
  const advised: Advised[] = [];
  for (const sex of ['male', 'female', 'unknown'] as const) {
    const order = inOrder(
      told,
      young.flatMap((one, m) => (one.sex === sex ? [m] : [])),
    );
    order.forEach((m, k) => {
      // The nearest on the other side of the cut: the first left out, or the last kept.
      const across = order[k < kept[sex] ? kept[sex] : kept[sex] - 1];
      const open = across !== undefined && values.notToldApart(m, across);
      const isLast = told[m]!.alleles.some(({ last }) => (last ?? 0) >= LAST_CARRIER_FROM);
      const byPlace = open ? 'cannot-tell' : k < kept[sex] ? 'keep' : 'others-first';
      advised[m] = {
        place: 1 + order.filter((other) => told[other]!.worth > told[m]!.worth + ALIKE).length,
        of: order.length,
        advice: isLast ? 'last-carrier' : byPlace,
      };
    });
  }
  return advised;
}
