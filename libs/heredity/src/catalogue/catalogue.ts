import { HeredityError } from '../heredity-error.js';
import type { Locus, LocusReference } from '../locus.js';
import { bodyLoci } from './body.js';
import { darkPigmentLoci } from './dark-pigment.js';
import { finLoci } from './fins.js';
import { iridescenceLoci } from './iridescence.js';
import { patternLoci } from './pattern.js';
import { redPigmentLoci } from './red-pigment.js';

/**
 * The loci of *Betta splendens* known to this library: what is established, what is breeders' practice, what is disputed.
 *
 * No recombination fraction has been published for any pair of them, and most loci under selection were found unlinked
 * (Kwon et al. 2022), so crosses treat them as unlinked unless told otherwise. The order of the colour layers is disputed
 * and is nowhere used in computing.
 */
export const catalogue: readonly Locus[] = Object.freeze([
  ...iridescenceLoci,
  ...darkPigmentLoci,
  ...redPigmentLoci,
  ...patternLoci,
  ...finLoci,
  ...bodyLoci,
]);

/** Names in use for looks that no single locus makes. */
export const looksWithoutLocus: readonly { readonly name: string; readonly meaning: string }[] =
  Object.freeze([
    { name: 'purple', meaning: 'red over blue, or mixtures with metallic or opaque' },
    {
      name: 'cellophane',
      meaning: 'pale without red or iridescence: several loci, or out of marble',
    },
    { name: 'black lace', meaning: 'a fertile black, not melano' },
  ]);

/**
 * The locus meant by an id or given by value.
 *
 * @param among loci to look in; a person's own come after the catalogue's and may not repeat an id.
 * @throws HeredityError `LOCUS_UNKNOWN`, `LOCUS_WITHDRAWN`.
 * @example findLocus('bl').name // 'Iridescence colour'
 */
export function findLocus(reference: LocusReference, among: readonly Locus[] = catalogue): Locus {
  const locus =
    typeof reference === 'string' ? among.find((one) => one.id === reference) : reference;
  if (!locus) {
    const id = typeof reference === 'string' ? reference : reference.id;
    throw new HeredityError(
      'LOCUS_UNKNOWN',
      `There is no locus "${id}". Choose one of ${among.map((one) => one.id).join(', ')}, or define it first.`,
      { locus: id },
    );
  }
  if (locus.status === 'withdrawn') {
    throw new HeredityError(
      'LOCUS_WITHDRAWN',
      `The locus "${locus.id}" (${locus.name}) has been withdrawn. Restore it, or move its records to another locus.`,
      { locus: locus.id },
    );
  }
  return locus;
}
