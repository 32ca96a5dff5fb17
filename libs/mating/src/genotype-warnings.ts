import {
  pairWarnings,
  type LocusId,
  type PairMember,
  type PairWarning,
} from '@linewright/heredity';
import type { PairingCandidate } from './candidate.js';
import type { PairingWarning, Severity } from './reason.js';

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

  /**
   * Counts of the warnings on every pair, without putting their texts together: for male `m` and female `f` (positions in the
   * lists) the count of each severity, packed by {@link packed}.
   *
   * Cost: a look-up a recorded locus; a small cross for each pair of genotypes met at a locus.
   */
  counter(
    males: readonly PairingCandidate[],
    females: readonly PairingCandidate[],
  ): (m: number, f: number) => number {
    const [ofMales, ofFemales] = [males, females].map((list) =>
      list.map((one) => this.#kindOf(one)),
    );
    if (!ofMales || !ofFemales) return () => 0;
    if ([...ofMales, ...ofFemales].some(({ traits }) => traits.length > 0)) {
      return (m, f) => {
        const [sire, dam] = [males[m], females[f]];
        return sire && dam ? packed(this.of(sire, dam)) : 0;
      };
    }
    const loci = new Set([...ofMales, ...ofFemales].flatMap(({ numbers }) => [...numbers.keys()]));
    const tables = Array.from(loci, (locus) => new CountTable(locus, ofMales, ofFemales));
    const count = (table: CountTable, m: number, f: number): number => {
      const known = table.at(m, f);
      if (known >= 0) return known;
      const [sire, dam] = [ofMales[m], ofFemales[f]];
      const found = sire && dam ? packed(this.#at(table.locus, sire, dam)) : 0;
      table.set(m, f, found);
      return found;
    };
    return (m, f) => {
      let sum = 0;
      for (const table of tables) sum += count(table, m, f);
      return sum;
    };
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

const SHIFT = { note: 0, caution: 10, stop: 20 } as const;

/** Counts by severity in one number, ten bits each: no pair has a thousand warnings. */
export function packed(warnings: readonly { readonly severity: Severity }[]): number {
  let sum = 0;
  for (const { severity } of warnings) sum += 1 << SHIFT[severity];
  return sum;
}

/** One count out of a packed number. */
export function unpacked(counts: number, severity: Severity): number {
  return (counts >> SHIFT[severity]) & 1023;
}

/** Packed counts at one locus for every pair of genotypes recorded there; -1 where not worked out yet. */
class CountTable {
  readonly locus: LocusId;
  readonly #rows: Int32Array;
  readonly #columns: Int32Array;
  readonly #width: number;
  readonly #counts: Int32Array;

  constructor(locus: LocusId, males: readonly Kind[], females: readonly Kind[]) {
    this.locus = locus;
    const places = new Map<number, number>();
    const place = ({ numbers }: Kind): number => {
      const number = numbers.get(locus) ?? -1;
      const known = places.get(number) ?? places.size;
      places.set(number, known);
      return known;
    };
    this.#rows = Int32Array.from(males, place);
    this.#columns = Int32Array.from(females, place);
    this.#width = places.size;
    this.#counts = new Int32Array(places.size ** 2).fill(-1);
    // Where neither side is recorded, no warning rests on the locus.
    const neither = places.get(-1);
    if (neither !== undefined) this.#counts[neither * this.#width + neither] = 0;
  }

  at(m: number, f: number): number {
    return this.#counts[(this.#rows[m] ?? 0) * this.#width + (this.#columns[f] ?? 0)] ?? 0;
  }

  set(m: number, f: number, counts: number): void {
    this.#counts[(this.#rows[m] ?? 0) * this.#width + (this.#columns[f] ?? 0)] = counts;
  }
}

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
