import { mendelianVariance } from '../young/expected-young.js';
import { checkBelief, type LineBelief } from './line-belief.js';
import type { Draws } from './draws.js';
import { errorRoot } from './error-root.js';
import { type KnownGroup, knownGroup } from './known-group.js';
import { locusTables, type LocusTable } from './locus-table.js';
import { UnitKinship } from './unit-kinship.js';

/** Young of one pair. */
export interface SimulatedBrood {
  readonly first: number;
  readonly count: number;
  /** F of all of them, exact by the pedigree. */
  readonly inbreeding: number;
  /** Young that did not live, by their genotype. */
  readonly lost: number;
}

/** Tries for one young when nearly all of a pair's die of their genotype. */
const MOST_TRIES = 200;

/**
 * One line as it might be, and go on: breeding values and genotypes of the actual fish drawn from what is believed of them, young by
 * Mendel's rules. Breeding values are drawn by the infinitesimal model: the mean of the parents, and a deviation whose variance is half
 * the additive one, less by the parents' mean F (Bulmer MG 1980, The Mathematical Theory of Quantitative Genetics; from memory). Loci are
 * unlinked, and neither linked to the traits.
 *
 * @throws MatingError MATING_BAD_BELIEF. Cost of a young: traits and loci.
 */
export class SimulatedLine {
  readonly belief: LineBelief;
  readonly tables: readonly LocusTable[];
  readonly kinship: UnitKinship;
  readonly founders: number;
  readonly traits: number;
  readonly loci: number;
  size: number;
  /** By fish and trait. */
  value: Float64Array;
  /** What the fish scores, in the trait's unit; a drawn score for the actual fish as well. */
  score: Float64Array;
  /** By fish and locus, `first * alleles + second`. */
  genotype: Uint16Array;
  /** By fish and locus: what it shows when nothing hides it. */
  shown: Uint8Array;
  /** 1 for males. */
  male: Uint8Array;
  unit: Int32Array;
  #draws!: Draws;
  #single: Uint8Array;
  readonly #known: readonly (readonly KnownGroup[])[];
  readonly #roots: readonly Float64Array[];
  /** Of the correlations of the traits. */
  readonly #together: Float64Array | null;

  constructor(belief: LineBelief) {
    checkBelief(belief);
    this.belief = belief;
    const { fish, coancestry, traits, correlation, loci } = belief;
    this.founders = this.size = fish.length;
    this.traits = traits.length;
    this.loci = loci.length;
    this.tables = locusTables(loci.map(({ locus }) => locus));
    this.#known = loci.map(({ groups }, at) =>
      groups.map((group) => knownGroup(group, this.tables[at]!)),
    );
    this.kinship = new UnitKinship(fish.length, coancestry);
    this.#roots = traits.map(({ traitId, error }) => errorRoot(traitId, error, fish.length));
    this.#together =
      correlation === undefined ? null : errorRoot('correlation', correlation, traits.length);
    const room = fish.length + 256;
    this.value = new Float64Array(room * this.traits);
    this.score = new Float64Array(room * this.traits);
    this.genotype = new Uint16Array(room * this.loci);
    this.shown = new Uint8Array(room * this.loci);
    this.male = new Uint8Array(room);
    this.unit = new Int32Array(room);
    this.#single = new Uint8Array(room);
  }

  /** Begins anew: another draw of what the actual fish are. */
  begin(draws: Draws): void {
    this.#draws = draws;
    this.size = this.founders;
    this.kinship.reset();
    this.#single.fill(0);
    this.belief.sex.forEach((sex, k) => {
      this.male[k] = sex === 'male' ? 1 : 0;
      this.unit[k] = k;
      this.#single[k] = 1;
    });
    this.#drawValues();
    for (let at = 0; at < this.loci; at++)
      for (const group of this.#known[at]!) this.#drawGenotypes(at, group);
  }

  /** F of a brood of two fish. */
  inbreedingOfBrood(sire: number, dam: number): number {
    return this.coancestry(sire, dam);
  }

  coancestry(a: number, b: number): number {
    const [of, and] = [this.unit[a]!, this.unit[b]!];
    if (a === b) return (1 + this.kinship.inbreedingOf(of)) / 2;
    return this.kinship.between(of, and);
  }

  inbreedingOf(fish: number): number {
    return this.kinship.inbreedingOf(this.unit[fish]!);
  }

  /** `count` young that live to be sorted. */
  spawn(sire: number, dam: number, count: number): SimulatedBrood {
    const unit = this.kinship.spawn(this.#own(sire), this.#own(dam));
    const first = this.size;
    if (first + count > this.male.length) this.#grow(first + count);
    this.size += count;
    const lost = this.#drawYoungGenotypes(sire, dam, first, count);
    this.#drawYoungValues(sire, dam, first, count);
    for (let i = first; i < this.size; i++) {
      this.male[i] = this.#draws.coin();
      this.unit[i] = unit;
      this.#single[i] = 0;
    }
    return { first, count, inbreeding: this.kinship.inbreedingOf(unit), lost };
  }

  /** Whether nothing hides what a fish shows at a locus. */
  isSeen(fish: number, locus: number): boolean {
    const from = fish * this.loci;
    return !this.tables[locus]!.hiders.some(({ at, phenotypes }) =>
      phenotypes.has(this.shown[from + at]!),
    );
  }

  /** Copies of an allele in a fish: 0, 1 or 2. */
  copies(fish: number, locus: number, allele: number): number {
    const { alleles } = this.tables[locus]!;
    const code = this.genotype[fish * this.loci + locus]!;
    return Number(Math.floor(code / alleles) === allele) + Number(code % alleles === allele);
  }

  #own(fish: number): number {
    if (this.#single[fish] === 1) return this.unit[fish]!;
    this.#single[fish] = 1;
    return (this.unit[fish] = this.kinship.single(this.unit[fish]!));
  }

  #drawValues(): void {
    const [size, traits] = [this.founders, this.traits];
    const errors = new Float64Array(size * traits);
    for (let i = 0; i < size; i++) this.#drawTogether(errors, i * traits);
    this.belief.traits.forEach(({ value, level, commonBrood, residual }, t) => {
      const root = this.#roots[t]!;
      const noise = Math.sqrt(commonBrood + residual);
      for (let i = 0; i < size; i++) {
        let drawn = value[i]!;
        for (let k = 0; k <= i; k++) drawn += root[i * size + k]! * errors[k * traits + t]!;
        this.value[i * traits + t] = drawn;
        this.score[i * traits + t] = level + drawn + noise * this.#draws.normal();
      }
    });
  }

  /** One standard normal number a trait, with the correlations of the traits. */
  #drawTogether(into: Float64Array, from: number): void {
    const { traits } = this;
    for (let t = 0; t < traits; t++) into[from + t] = this.#draws.normal();
    const root = this.#together;
    if (root === null) return;
    for (let t = traits - 1; t >= 0; t--) {
      let sum = 0;
      for (let s = 0; s <= t; s++) sum += root[t * traits + s]! * into[from + s]!;
      into[from + t] = sum;
    }
  }

  #drawGenotypes(at: number, { fish, codes, cumulative }: KnownGroup): void {
    const outcomes = codes.length / fish.length;
    const which = cumulative === null ? this.#draws.run % outcomes : this.#draws.among(cumulative);
    const from = which * fish.length;
    for (let k = 0; k < fish.length; k++) {
      const code = codes[from + k]!;
      this.genotype[fish[k]! * this.loci + at] = code;
      this.#show(fish[k]!, at, code);
    }
  }

  #show(fish: number, at: number, code: number): void {
    const { shown, chances } = this.tables[at]!;
    const which = shown[code]!.length === 1 ? 0 : this.#draws.among(chances[code]!);
    this.shown[fish * this.loci + at] = shown[code]![which] ?? 0;
  }

  #drawYoungGenotypes(sire: number, dam: number, first: number, count: number): number {
    let lost = 0;
    for (let i = first; i < first + count; i++)
      for (let tries = 1; !this.#drawYoung(sire, dam, i) && tries < MOST_TRIES; tries++) lost++;
    return lost;
  }

  /** False: it did not live. */
  #drawYoung(sire: number, dam: number, young: number): boolean {
    for (let at = 0; at < this.loci; at++) {
      const { alleles, survival } = this.tables[at]!;
      const code = this.#gamete(sire, at) * alleles + this.#gamete(dam, at);
      const lives = survival[code]!;
      if (lives < 1 && this.#draws.uniform() >= lives) return false;
      this.genotype[young * this.loci + at] = code;
      this.#show(young, at, code);
    }
    return true;
  }

  #gamete(parent: number, at: number): number {
    const { alleles } = this.tables[at]!;
    const code = this.genotype[parent * this.loci + at]!;
    return this.#draws.coin() === 0 ? Math.floor(code / alleles) : code % alleles;
  }

  #drawYoungValues(sire: number, dam: number, first: number, count: number): void {
    const inbreeding = [this.inbreedingOf(sire), this.inbreedingOf(dam)] as const;
    const traits = this.traits;
    for (let i = first; i < first + count; i++) this.#drawTogether(this.value, i * traits);
    this.belief.traits.forEach(({ level, additive, commonBrood, residual }, t) => {
      const mean = (this.value[sire * traits + t]! + this.value[dam * traits + t]!) / 2;
      const spread = Math.sqrt(mendelianVariance(...inbreeding, additive));
      const shared = commonBrood > 0 ? Math.sqrt(commonBrood) * this.#draws.normal() : 0;
      const noise = Math.sqrt(residual);
      for (let i = first; i < first + count; i++) {
        const value = mean + spread * this.value[i * traits + t]!;
        this.value[i * traits + t] = value;
        this.score[i * traits + t] = level + value + shared + noise * this.#draws.normal();
      }
    });
  }

  #grow(least: number): void {
    const room = 2 * least;
    const { traits, loci } = this;
    this.value = larger(this.value, new Float64Array(room * traits));
    this.score = larger(this.score, new Float64Array(room * traits));
    this.genotype = larger(this.genotype, new Uint16Array(room * loci));
    this.shown = larger(this.shown, new Uint8Array(room * loci));
    this.male = larger(this.male, new Uint8Array(room));
    this.unit = larger(this.unit, new Int32Array(room));
    this.#single = larger(this.#single, new Uint8Array(room));
  }
}

function larger<List extends Float64Array | Uint16Array | Uint8Array | Int32Array>(
  list: List,
  into: List,
): List {
  into.set(list);
  return into;
}
