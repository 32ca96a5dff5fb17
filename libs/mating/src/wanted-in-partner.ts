import {
  findLocus,
  lociWith,
  possibleGenotypes,
  showsPhenotype,
  type AlleleId,
  type Answer,
  type Locus,
  type LocusId,
  type PhenotypeId,
} from '@linewright/heredity';
import type { PairingCandidate } from './candidate.js';
import { MatingError } from './mating-error.js';
import { summariseTrait } from './mid-parent.js';

/** One thing wanted in a partner. */
export type WantedInPartner =
  /** It carries the allele, in one dose or two. */
  | { readonly kind: 'allele'; readonly locusId: LocusId; readonly alleleId: AlleleId }
  /** It shows the phenotype itself, no other locus hiding it. */
  | { readonly kind: 'phenotype'; readonly locusId: LocusId; readonly phenotypeId: PhenotypeId }
  /** Its latest score reaches a minimum, stays under a maximum, or both. */
  | {
      readonly kind: 'trait';
      readonly traitId: string;
      readonly name?: string;
      readonly atLeast?: number;
      readonly atMost?: number;
    };

/** Whether a fish has what is wanted: `possible` when its genotype is only partly known and may hold it. */
export type WantedAnswer = Answer;

/** A wanted thing, and whether a fish has it. */
export interface WantedOutcome {
  readonly wanted: WantedInPartner;
  readonly label: string;
  readonly answer: WantedAnswer;
  /** The score behind the answer, for a trait. */
  readonly value: number | null;
}

/** Looks up one wanted thing in a fish. Throws `HeredityError` for an unknown locus or
 * genotype, `MatingError` with code `MATING_BAD_SETTING` for an allele or phenotype the locus does not have. */
export function lookFor(
  wanted: WantedInPartner,
  fish: PairingCandidate,
  loci: readonly Locus[] | undefined,
): WantedOutcome {
  if (wanted.kind === 'trait') {
    const value = summariseTrait(fish.scores ?? [], wanted.traitId)?.value ?? null;
    const meets =
      value !== null &&
      value >= (wanted.atLeast ?? -Infinity) &&
      value <= (wanted.atMost ?? Infinity);
    return {
      wanted,
      label: traitLabel(wanted),
      answer: value === null ? 'unknown' : meets ? 'yes' : 'no',
      value,
    };
  }
  const locus = loci?.find(({ id }) => id === wanted.locusId) ?? findLocus(wanted.locusId);
  checkNamed(wanted, locus);
  if (wanted.kind === 'phenotype') {
    const { phenotypeId } = wanted;
    const answer = showsPhenotype(fish.genotypes ?? {}, locus, phenotypeId, lociWith(loci));
    return { wanted, label: phenotypeLabel(locus, phenotypeId), answer, value: null };
  }
  const possible = possibleGenotypes(locus, fish.genotypes?.[wanted.locusId]);
  const holding = possible.filter((one) => one.includes(wanted.alleleId)).length;
  const some = holding > 0 ? 'possible' : 'no';
  const known = holding === possible.length ? 'yes' : some;
  return {
    wanted,
    label: alleleLabel(locus, wanted.alleleId),
    answer: possible.length === 0 ? 'unknown' : known,
    value: null,
  };
}

/** Refuses a misspelt allele or phenotype rather than answering "no". */
function checkNamed(wanted: Exclude<WantedInPartner, { kind: 'trait' }>, locus: Locus): void {
  const [sought, kind, known] =
    wanted.kind === 'allele'
      ? [wanted.alleleId, 'allele', locus.alleles]
      : [wanted.phenotypeId, 'phenotype', locus.phenotypes];
  if (known.some(({ id }) => id === sought)) return;
  const ids = known.map(({ id }) => id).join(', ') || 'none';
  const text = `Locus ${locus.id} has no ${kind} "${sought}". It has: ${ids}.`;
  throw new MatingError('MATING_BAD_SETTING', sought, text);
}

function alleleLabel(locus: Locus, alleleId: AlleleId): string {
  const allele = locus.alleles.find(({ id }) => id === alleleId);
  return allele ? `${allele.name} (${allele.symbol})` : alleleId;
}

function phenotypeLabel(locus: Locus, phenotypeId: PhenotypeId): string {
  return locus.phenotypes.find(({ id }) => id === phenotypeId)?.name ?? phenotypeId;
}

function traitLabel({
  name,
  traitId,
  atLeast,
  atMost,
}: Extract<WantedInPartner, { kind: 'trait' }>): string {
  const limits = [
    ...(atLeast === undefined ? [] : [`at least ${String(atLeast)}`]),
    ...(atMost === undefined ? [] : [`at most ${String(atMost)}`]),
  ];
  return [name ?? traitId, limits.join(' and ')].join(' ').trim();
}
