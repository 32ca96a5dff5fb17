import { catalogue, findLocus } from '../catalogue/catalogue.js';
import { cross } from '../cross/cross.js';
import type { CrossExpectation, CrossOptions } from '../cross/cross-types.js';
import { parsePartialGenotype, type GenotypeInput, type GenotypeSet } from '../genotype.js';
import type { Locus, LocusId } from '../locus.js';

export type NotComputedReason =
  'unknown-in-sire' | 'unknown-in-dam' | 'partly-known' | 'not-computable';

export interface NotComputed {
  readonly locus: LocusId;
  readonly name: string;
  readonly reason: NotComputedReason;
  readonly text: string;
}

/** What can be expected of a pair of which only part is known. */
export interface PairExpectation {
  /** Null when no locus can be computed. */
  readonly expectation: CrossExpectation | null;
  readonly computed: readonly LocusId[];
  readonly notComputed: readonly NotComputed[];
}

export interface PairExpectationOptions extends CrossOptions {
  /** A keeper's own loci; one with an id of the catalogue stands in its place. */
  readonly loci?: readonly Locus[];
}

function isPartial(locus: Locus, input: GenotypeInput): boolean {
  if (typeof input !== 'string') return false;
  return input.includes('-') && parsePartialGenotype(locus, input).length > 1;
}

function obstacle(locus: Locus, sire: GenotypeSet, dam: GenotypeSet): NotComputed | null {
  const because = (reason: NotComputedReason, text: string): NotComputed => ({
    locus: locus.id,
    name: locus.name,
    reason,
    text,
  });
  if (!locus.computable) return because('not-computable', locus.whyNot ?? 'Recorded only.');
  const ofSire = sire[locus.id];
  const ofDam = dam[locus.id];
  if (ofSire === undefined) {
    return because('unknown-in-sire', `${locus.name}: the sire's genotype is not known.`);
  }
  if (ofDam === undefined) {
    return because('unknown-in-dam', `${locus.name}: the dam's genotype is not known.`);
  }
  const partial = [
    ...(isPartial(locus, ofSire) ? ['sire'] : []),
    ...(isPartial(locus, ofDam) ? ['dam'] : []),
  ];
  return partial.length > 0
    ? because(
        'partly-known',
        `${locus.name}: the genotype of the ${partial.join(' and the ')} is only partly known; a probability for each possible genotype would allow an expectation.`,
      )
    : null;
}

/**
 * The expected classes at every locus known in both parents, and for every other locus why nothing is computed.
 *
 * Loci are taken in the order of the catalogue. Written alleles that cannot be read are errors, not gaps.
 * @throws HeredityError `LOCUS_UNKNOWN`, `LOCUS_WITHDRAWN`, and those of `cross`.
 * @example
 * expectPhenotypes({ dt: 'Dt/dt', m: 'm/m' }, { dt: 'Dt/dt' }).notComputed[0].reason; // 'unknown-in-dam' (m)
 */
export function expectPhenotypes(
  sire: GenotypeSet,
  dam: GenotypeSet,
  options: PairExpectationOptions = {},
): PairExpectation {
  const own = options.loci ?? [];
  const ownIds = new Set(own.map((locus) => locus.id));
  const known = [...catalogue.filter((locus) => !ownIds.has(locus.id)), ...own];
  const asked = new Set([...Object.keys(sire), ...Object.keys(dam)]);
  const found = [...asked].map((id) => findLocus(id, known));
  found.sort((a, b) => known.indexOf(a) - known.indexOf(b));
  const computed: Locus[] = [];
  const notComputed: NotComputed[] = [];
  for (const locus of found) {
    const reason = obstacle(locus, sire, dam);
    if (reason) notComputed.push(reason);
    else computed.push(locus);
  }
  return {
    expectation: computed.length > 0 ? cross({ sire, dam }, computed, options) : null,
    computed: computed.map((locus) => locus.id),
    notComputed,
  };
}
