import { catalogue, findLocus } from '../catalogue/catalogue.js';
import { cross } from '../cross/cross.js';
import type { CrossExpectation, CrossOptions } from '../cross/cross-types.js';
import {
  allGenotypes,
  canonicalGenotype,
  parsePartialGenotype,
  type GenotypeInput,
  type GenotypeSet,
} from '../genotype.js';
import { HeredityError } from '../heredity-error.js';
import type { Genotype, HiddenBy, Locus, LocusId } from '../locus.js';
import { phenotypesOf } from '../phenotypes.js';
import { possibleGenotypes } from './pair-member.js';

export type NotComputedReason =
  | 'unknown-in-sire'
  | 'unknown-in-dam'
  | 'partly-known'
  | 'not-computable'
  | 'may-be-hidden'
  | 'no-young-live';

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
  /** A person's own loci; one with an id of the catalogue stands in its place. */
  readonly loci?: readonly Locus[];
}

/** The catalogue with a person's own loci, which stand in the place of those with their id. */
export function lociWith(own: readonly Locus[] = []): Locus[] {
  const ids = new Set(own.map((locus) => locus.id));
  return [...catalogue.filter((locus) => !ids.has(locus.id)), ...own];
}

function isPartial(locus: Locus, input: GenotypeInput): boolean {
  if (typeof input !== 'string') return false;
  return input.includes('-') && parsePartialGenotype(locus, input).length > 1;
}

const because = (locus: Locus, reason: NotComputedReason, text: string): NotComputed => ({
  locus: locus.id,
  name: locus.name,
  reason,
  text: `${locus.name}: ${text}`,
});

/** Why nothing can be computed of a locus from what is known of it in the two. */
export function obstacle(locus: Locus, sire: GenotypeSet, dam: GenotypeSet): NotComputed | null {
  if (!locus.computable) {
    return { ...because(locus, 'not-computable', ''), text: locus.whyNot ?? 'Recorded only.' };
  }
  const ofSire = sire[locus.id];
  const ofDam = dam[locus.id];
  if (ofSire === undefined) {
    return because(locus, 'unknown-in-sire', "the sire's genotype is not known.");
  }
  if (ofDam === undefined) {
    return because(locus, 'unknown-in-dam', "the dam's genotype is not known.");
  }
  const partial = [
    ...(isPartial(locus, ofSire) ? ['sire'] : []),
    ...(isPartial(locus, ofDam) ? ['dam'] : []),
  ];
  return partial.length > 0
    ? because(
        locus,
        'partly-known',
        `the genotype of the ${partial.join(' and the ')} is only partly known; a probability for each possible genotype would allow an expectation.`,
      )
    : null;
}

/** Whether some young of parents that may be these would show one of the phenotypes that hide. */
function mayHide(
  hider: Locus,
  gate: HiddenBy,
  sire: readonly Genotype[],
  dam: readonly Genotype[],
): boolean {
  const passed = (genotypes: readonly Genotype[]) => [...new Set(genotypes.flat())];
  return passed(sire).some((a) =>
    passed(dam).some((b) =>
      phenotypesOf(hider, canonicalGenotype(hider, [a, b])).some(
        (one) => one.probability.numerator > 0n && gate.phenotypes.includes(one.phenotype.id),
      ),
    ),
  );
}

/** A locus that may hide some of the young, and the parent whose genotype there would tell whether it does. */
export interface OpenGate {
  readonly gate: HiddenBy;
  readonly hider: Locus;
  /** Null when both are on record, one or both in part. */
  readonly missing: 'sire' | 'dam' | null;
}

/** The locus of this id, when it is one that can hide anything. */
export function hiderOf(gate: HiddenBy, known: readonly Locus[]): Locus | null {
  const hider = known.find((one) => one.id === gate.locus);
  return hider?.computable && hider.status === 'current' ? hider : null;
}

/**
 * The first locus that hides `locus` in some of the young or does not, as far as the records tell: it is on record for one parent
 * only (or in part), and may hide. Loci in `computed` are known, and one on record for neither is taken not to hide anything.
 */
export function openGate(
  locus: Locus,
  computed: ReadonlySet<LocusId>,
  sire: GenotypeSet,
  dam: GenotypeSet,
  known: readonly Locus[],
): OpenGate | null {
  for (const gate of locus.hiddenBy) {
    const hider = hiderOf(gate, known);
    if (hider === null || computed.has(hider.id)) continue;
    const [ofSire, ofDam] = [sire, dam].map((set) => possibleGenotypes(hider, set[hider.id]));
    if (!ofSire || !ofDam || ofSire.length + ofDam.length === 0) continue;
    const all = allGenotypes(hider);
    const open = [ofSire.length > 0 ? ofSire : all, ofDam.length > 0 ? ofDam : all] as const;
    if (!mayHide(hider, gate, ...open)) continue;
    return {
      gate,
      hider,
      missing: ofSire.length === 0 ? 'sire' : ofDam.length === 0 ? 'dam' : null,
    };
  }
  return null;
}

/**
 * Why a locus whose own genotypes are known still gives no classes: see {@link openGate}. Where such a locus is on record for
 * neither, a note of the expectation says so.
 */
function hidden(
  locus: Locus,
  computed: ReadonlySet<LocusId>,
  sire: GenotypeSet,
  dam: GenotypeSet,
  known: readonly Locus[],
): NotComputed | null {
  const open = openGate(locus, computed, sire, dam, known);
  if (open === null) return null;
  const { gate, hider, missing } = open;
  return because(
    locus,
    'may-be-hidden',
    `${gate.why}, and whether the young show that is not known${missing === null ? '' : ` without the ${missing}'s genotype at ${hider.name.toLowerCase()}`}.`,
  );
}

/**
 * The expected classes at every locus known in both parents, and for every other locus why nothing is computed.
 *
 * This is the one reckoning of what a brood shows: loci that hide one another are looked at together, and so is what does not
 * live. Lists, wishes, drawings and forecasts take their classes from here or from the crosses below it.
 *
 * Loci are taken in the order of the catalogue. Written alleles that cannot be read are errors, not gaps. Where no young of the
 * pair live, `expectation` is null and each locus that kills them is named.
 * @throws HeredityError `LOCUS_UNKNOWN`, `LOCUS_WITHDRAWN`, and those of `cross` but `NO_SURVIVORS`.
 * @example
 * expectPhenotypes({ dt: 'Dt/dt', m: 'm/m' }, { dt: 'Dt/dt' }).notComputed[0].reason; // 'unknown-in-dam' (m)
 */
export function expectPhenotypes(
  sire: GenotypeSet,
  dam: GenotypeSet,
  options: PairExpectationOptions = {},
): PairExpectation {
  const known = lociWith(options.loci);
  const asked = new Set([...Object.keys(sire), ...Object.keys(dam)]);
  const found = [...asked].map((id) => findLocus(id, known));
  found.sort((a, b) => known.indexOf(a) - known.indexOf(b));
  const notComputed = new Map<LocusId, NotComputed>();
  for (const locus of found) {
    const reason = obstacle(locus, sire, dam);
    if (reason) notComputed.set(locus.id, reason);
  }
  const computed = () => found.filter((locus) => !notComputed.has(locus.id));
  // A locus left out may itself have hidden another.
  for (let before = -1; before !== notComputed.size;) {
    before = notComputed.size;
    const left = new Set(computed().map((locus) => locus.id));
    for (const locus of computed()) {
      const reason = hidden(locus, left, sire, dam, known);
      if (reason) notComputed.set(locus.id, reason);
    }
  }
  const loci = computed();
  const all = () => found.flatMap((locus) => notComputed.get(locus.id) ?? []);
  if (loci.length === 0) return { expectation: null, computed: [], notComputed: all() };
  try {
    return {
      expectation: cross({ sire, dam }, loci, options),
      computed: loci.map((locus) => locus.id),
      notComputed: all(),
    };
  } catch (error) {
    if (!(error instanceof HeredityError) || error.code !== 'NO_SURVIVORS') throw error;
    for (const locus of loci)
      notComputed.set(locus.id, because(locus, 'no-young-live', 'no young of this pair live.'));
    return { expectation: null, computed: [], notComputed: all() };
  }
}
