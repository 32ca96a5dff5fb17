import { HeredityError } from '../heredity-error.js';
import type { AlleleId, Locus, LocusId, PhenotypeId } from '../locus.js';
import { findLocusProblems } from './locus-problems.js';

/** What a person says about a locus of their own. Everything left out takes a cautious default. */
export interface LocusDefinition {
  readonly id: LocusId;
  readonly name: string;
  readonly alleles: Locus['alleles'];
  readonly phenotypes: Locus['phenotypes'];
  readonly expression: Locus['expression'];
  readonly layer?: Locus['layer'];
  readonly dominance?: Locus['dominance'];
  readonly dominanceNote?: string;
  readonly notations?: Locus['notations'];
  readonly hiddenBy?: Locus['hiddenBy'];
  readonly viability?: Locus['viability'];
  readonly fertility?: Locus['fertility'];
  readonly scoring?: Locus['scoring'];
  readonly risks?: readonly string[];
  readonly notes?: readonly string[];
  readonly testable?: boolean;
}

function validated(locus: Locus): Locus {
  const problems = findLocusProblems(locus);
  if (problems.length > 0) {
    throw new HeredityError(
      'LOCUS_INVALID',
      `The locus "${locus.id}" cannot be used: ${problems.map((one) => one.message).join(' ')}`,
      {
        locus: locus.id,
        problems: problems.map((one) => one.code),
        messages: problems.map((one) => one.message),
      },
    );
  }
  return Object.freeze(locus);
}

/**
 * A locus of a person's own, version 1. Its confidence is `practice`: a person's model, not a published one.
 *
 * @throws HeredityError `LOCUS_INVALID`, all problems at once in `details.problems` (codes) and `details.messages`.
 */
export function defineLocus(definition: LocusDefinition): Locus {
  return validated({
    layer: 'body',
    dominance: 'unknown',
    dominanceNote: '',
    notations: [],
    hiddenBy: [],
    viability: [],
    fertility: [],
    interplay: [],
    risks: [],
    notes: [],
    scoring: { fromWeeks: null, note: 'Not stated.', basis: 'the keeper' },
    testable: true,
    ...definition,
    version: 1,
    origin: 'own',
    status: 'current',
    confidence: 'practice',
    sources: [],
    computable: true,
  });
}

/** What records already hold of a locus, so that a change does not pull the ground from under them. */
export interface LocusUse {
  readonly alleles?: readonly AlleleId[];
  readonly phenotypes?: readonly PhenotypeId[];
}

/**
 * The next version of a person's locus. The id stays; alleles and phenotypes that records use must stay too.
 * @throws HeredityError `LOCUS_INVALID`, `LOCUS_ALLELE_IN_USE`, `LOCUS_WITHDRAWN`, `ARGUMENT_INVALID` (catalogue locus).
 */
export function reviseLocus(
  previous: Locus,
  changes: Partial<Omit<LocusDefinition, 'id'>>,
  use: LocusUse = {},
): Locus {
  if (previous.origin !== 'own') {
    throw new HeredityError(
      'ARGUMENT_INVALID',
      `${previous.name} belongs to the catalogue and is not edited; define a locus of your own in its place.`,
      { locus: previous.id },
    );
  }
  if (previous.status === 'withdrawn') {
    throw new HeredityError(
      'LOCUS_WITHDRAWN',
      `The locus "${previous.id}" has been withdrawn; restore it before changing it.`,
      { locus: previous.id },
    );
  }
  const next: Locus = { ...previous, ...changes, version: previous.version + 1 };
  const lost = [
    ...(use.alleles ?? []).filter((id) => !next.alleles.some((one) => one.id === id)),
    ...(use.phenotypes ?? []).filter((id) => !next.phenotypes.some((one) => one.id === id)),
  ];
  if (lost.length > 0) {
    throw new HeredityError(
      'LOCUS_ALLELE_IN_USE',
      `Records use ${lost.join(', ')}, which the new version of "${previous.id}" no longer has. Keep it, or correct those records first.`,
      { locus: previous.id, lost },
    );
  }
  return validated(next);
}

/** Marks a person's locus as withdrawn: records that use it then get `LOCUS_WITHDRAWN`. A new version. */
export function withdrawLocus(locus: Locus): Locus {
  return Object.freeze({ ...locus, version: locus.version + 1, status: 'withdrawn' as const });
}

/** Takes a withdrawal back. A new version. */
export function restoreLocus(locus: Locus): Locus {
  return Object.freeze({ ...locus, version: locus.version + 1, status: 'current' as const });
}

/**
 * The commonest kind of person's locus: two alleles, one phenotype each, dominance complete or incomplete.
 *
 * @example twoAlleleLocus({ id: 'a', name: 'Albedo', symbols: ['A', 'a'], looks: ['dark', 'light'] })
 */
export function twoAlleleLocus(input: {
  readonly id: LocusId;
  readonly name: string;
  /** Dominant first. */
  readonly symbols: readonly [string, string];
  /** Look of the dominant and of the recessive; with three, the middle one is the heterozygote. */
  readonly looks: readonly [string, string] | readonly [string, string, string];
}): Locus {
  const [dominant, recessive] = input.symbols;
  const shows = (phenotype: string) => [{ phenotype, probability: '1' }];
  const first = input.looks[0];
  const last = input.looks[input.looks.length - 1] ?? first;
  const middle = input.looks.length === 3 ? input.looks[1] : first;
  return defineLocus({
    id: input.id,
    name: input.name,
    alleles: [
      { id: dominant, symbol: dominant, name: first },
      { id: recessive, symbol: recessive, name: last },
    ],
    dominance: input.looks.length === 3 ? 'incomplete' : 'complete',
    phenotypes: input.looks.map((look) => ({ id: look, name: look })),
    expression: [
      { genotype: `${dominant}/${dominant}`, shows: shows(first) },
      { genotype: `${dominant}/${recessive}`, shows: shows(middle) },
      { genotype: `${recessive}/${recessive}`, shows: shows(last) },
    ],
  });
}
