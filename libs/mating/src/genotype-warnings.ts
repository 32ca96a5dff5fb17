import {
  pairWarnings,
  type LocusId,
  type PairMember,
  type PairWarning,
} from '@linewright/heredity';
import type { PairingCandidate } from './candidate.js';
import type { PairingWarning } from './reason.js';

/** What is known of a fish's genotypes and visible traits, numbered so that it can be looked up quickly. */
interface Kind {
  /** Same number, same genotypes and traits. */
  readonly number: number;
  readonly traits: NonNullable<PairMember['traits']>;
  readonly genotypes: PairMember['genotypes'];
  /** By locus, a number for the genotype recorded there together with the traits. */
  readonly numbers: ReadonlyMap<LocusId, number>;
  /** The same for a locus that is not recorded: the traits alone. */
  readonly traitsNumber: number;
}

/**
 * Warnings on genotypes and visible traits, from `@linewright/heredity`.
 *
 * Each of its warnings rests on one locus and on what is seen, so it is asked once for every pair of genotypes at a locus
 * and the answers are put together; a stock where no two fish have the same set of genotypes stays quick.
 */
export class GenotypeWarnings {
  readonly #numbers = new Map<string, number>();
  readonly #kinds = new Map<PairingCandidate, Kind>();
  readonly #together = new Map<number, readonly PairingWarning[]>();
  readonly #byLocus = new Map<LocusId, Map<number, readonly PairingWarning[]>>();

  of(sire: PairingCandidate, dam: PairingCandidate): readonly PairingWarning[] {
    const [ofSire, ofDam] = [this.#kindOf(sire), this.#kindOf(dam)];
    const key = together(ofSire.number, ofDam.number);
    let warnings = this.#together.get(key);
    if (!warnings) {
      warnings = this.#putTogether(ofSire, ofDam);
      this.#together.set(key, warnings);
    }
    return warnings;
  }

  #putTogether(sire: Kind, dam: Kind): readonly PairingWarning[] {
    const found = [...this.#onTraits(sire, dam)];
    for (const locus of sire.numbers.keys()) found.push(...this.#at(locus, sire, dam));
    for (const locus of dam.numbers.keys()) {
      if (!sire.numbers.has(locus)) found.push(...this.#at(locus, sire, dam));
    }
    return found.length === 0 ? NONE : found;
  }

  /** Warnings that rest on `locus`. */
  #at(locus: LocusId, sire: Kind, dam: Kind): readonly PairingWarning[] {
    let known = this.#byLocus.get(locus);
    if (!known) this.#byLocus.set(locus, (known = new Map<number, readonly PairingWarning[]>()));
    const key = together(
      sire.numbers.get(locus) ?? sire.traitsNumber,
      dam.numbers.get(locus) ?? dam.traitsNumber,
    );
    let warnings = known.get(key);
    if (!warnings) {
      const all = pairWarnings(memberAt(sire, locus), memberAt(dam, locus));
      warnings = all.filter(({ loci }) => loci.includes(locus)).map(fromHeredity);
      known.set(key, warnings);
    }
    return warnings;
  }

  /** Warnings on traits whose locus is recorded on neither side. */
  #onTraits(sire: Kind, dam: Kind): readonly PairingWarning[] {
    if (sire.traits.length + dam.traits.length === 0) return NONE;
    const recorded = (locus: LocusId): boolean => sire.numbers.has(locus) || dam.numbers.has(locus);
    return pairWarnings(memberAt(sire, null), memberAt(dam, null))
      .filter(({ loci }) => !loci.some(recorded))
      .map(fromHeredity);
  }

  #kindOf(fish: PairingCandidate): Kind {
    let kind = this.#kinds.get(fish);
    if (!kind) {
      const genotypes = fish.genotypes ?? {};
      const traits = [...(fish.traits ?? [])].toSorted();
      const loci = Object.keys(genotypes).toSorted();
      const numbers = loci.map((locus): [LocusId, number] => {
        return [locus, this.#number(asText([genotypes[locus], traits]))];
      });
      kind = {
        number: this.#number(asText([numbers, traits])),
        traits,
        genotypes,
        numbers: new Map(numbers),
        traitsNumber: this.#number(asText([null, traits])),
      };
      this.#kinds.set(fish, kind);
    }
    return kind;
  }

  #number(text: string): number {
    const number = this.#numbers.get(text) ?? this.#numbers.size;
    this.#numbers.set(text, number);
    return number;
  }
}

const NONE: readonly PairingWarning[] = [];

/** One key for two numbers; they stay far below 2^26, so it is a safe integer. */
function together(sire: number, dam: number): number {
  return sire * 67_108_864 + dam;
}

function memberAt({ genotypes, traits }: Kind, locus: LocusId | null): PairMember {
  const genotype = locus === null ? undefined : genotypes[locus];
  const known = locus === null || genotype === undefined ? {} : { [locus]: genotype };
  return { genotypes: known, traits };
}

function fromHeredity(warning: PairWarning): PairingWarning {
  const { code, severity, text, loci, confidence, basis } = warning;
  const figures = { loci: loci.join(' '), confidence };
  return { code, severity, concerns: 'brood', text, figures, basis };
}

function asText(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) => {
    return typeof part === 'bigint' ? `${String(part)}n` : part;
  });
}
