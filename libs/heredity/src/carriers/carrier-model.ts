import type { PairPossibility } from '../cross/mixture.js';
import { HeredityError } from '../heredity-error.js';
import type { AlleleId, Genotype } from '../locus.js';
import { bestOrder } from './best-order.js';
import { CliqueTree, type StateTable, type Watch } from './clique-tree.js';
import type { Elimination } from './elimination-order.js';
import type { CarrierEvidence } from './evidence.js';
import { buildNetwork, evidenceFactor, type Network, type NetworkInput } from './network.js';
import {
  bitsOf,
  reduceFactor,
  reduceNetwork,
  relevantFish,
  type ReducedNetwork,
} from './reduced-network.js';
import { sampleAnswer, type SampledAnswer } from './sampled-answer.js';
import { cancelled } from './stopped.js';
import { seededChance } from '@linewright/pedigree';

export interface CarrierOptions extends Watch {
  /** Fish asked about; all when left out. Fewer may make an exact answer possible. */
  readonly fish?: readonly string[];
  /** Pairs whose joint genotypes are wanted; only the sampler has to know them beforehand. */
  readonly pairs?: readonly { readonly sire: string; readonly dam: string }[];
  /** Fish that are to be drawn together; only the sampler has to know them beforehand. */
  readonly drawn?: readonly string[];
  /** Entries of the largest table of the exact method; 4 million by default. */
  readonly exactLimit?: number;
  /** Sweeps of the sampler, 1,000 by default, and its seed. */
  readonly sweeps?: number;
  readonly seed?: number;
  readonly method?: 'auto' | 'exact' | 'sampled';
}

/** Probabilities of the genotypes of one fish. */
export interface GenotypePosterior {
  readonly fish: string;
  readonly genotypes: readonly {
    readonly genotype: Genotype;
    readonly text: string;
    readonly probability: number;
    /** Of the sampler; null when exact. */
    readonly standardError: number | null;
  }[];
}

export interface JointPosterior {
  readonly sire: Genotype;
  readonly dam: Genotype;
  readonly probability: number;
}

/** Genotypes of some fish, drawn together. */
export interface DrawnTogether {
  readonly genotypes: readonly Genotype[];
  /** Places in `genotypes`, draw by draw, one for each fish in the order asked for. */
  readonly draws: Uint8Array;
}

/** How an answer was come by. */
export interface CarrierMethod {
  readonly kind: 'exact' | 'sampled';
  /** Fish with more than one possible genotype. */
  readonly uncertainFish: number;
  /** Entries of the largest table: what an exact answer would cost when it was not given. */
  readonly largestTable: number | null;
  readonly note: string;
}

const EXACT_LIMIT = 2 ** 22;
/** Small enough that sets of genotypes with two carriers do not count, and large enough that it is no rounding error. */
const CARRIER_WEIGHT = 1e-9;

function impossible(network: Network): never {
  throw new HeredityError(
    'EVIDENCE_IMPOSSIBLE',
    'These records cannot all be true under this model of the locus. Ask for the contradiction to see which of them clash, or allow for some mis-scoring.',
    { records: network.input.evidence.map((one) => one.id) },
  );
}

interface Solved {
  readonly probabilities: Float64Array;
  readonly errors: Float64Array | null;
}

/**
 * What the fish of a pedigree carry at one locus, given all that was seen.
 *
 * Made by {@link carrierModel}; immutable. Probabilities are posterior: founders' beliefs times Mendelian transmission times
 * the likelihood of every record, summed over all genotypes of all other fish.
 */
export class CarrierModel {
  readonly method: CarrierMethod;
  readonly #network: Network;
  readonly #reduced: ReducedNetwork;
  readonly #options: CarrierOptions;
  readonly #elimination: Elimination | null;
  readonly #tree: CliqueTree | null;
  readonly #sampled: SampledAnswer | null;

  /** @internal Use {@link carrierModel}. */
  constructor(parts: {
    network: Network;
    reduced: ReducedNetwork;
    options: CarrierOptions;
    elimination: Elimination | null;
    tree: CliqueTree | null;
    sampled: SampledAnswer | null;
    largest: number | null;
  }) {
    this.#network = parts.network;
    this.#reduced = parts.reduced;
    this.#options = parts.options;
    this.#elimination = parts.elimination;
    this.#tree = parts.tree;
    this.#sampled = parts.sampled;
    this.method = {
      kind: parts.tree ? 'exact' : 'sampled',
      uncertainFish: parts.reduced.fishOf.length,
      largestTable: parts.largest,
      note: parts.tree
        ? 'Exact: summed over every possible genotype of every fish.'
        : `The pedigree is too tangled for an exact answer within the limit; probabilities are from ${String(parts.options.sweeps ?? 1000)} sampling sweeps and carry a standard error.`,
    };
  }

  /** ln likelihood of all records; null when sampled. For comparing models of the same records. */
  get logLikelihood(): number | null {
    if (!this.#tree) return null;
    return this.#tree.logTotal + this.#reduced.logConstant + this.#network.logScale;
  }

  /** Genotypes of a fish. Throws `FISH_UNKNOWN`, also for a fish left out of `options.fish`. */
  posterior(fish: string): GenotypePosterior {
    const { probabilities, errors } = this.#solve(this.#place(fish));
    const { genotypes, texts } = this.#network.tables;
    return {
      fish,
      genotypes: genotypes.map((genotype, g) => ({
        genotype,
        text: texts[g] ?? '',
        probability: probabilities[g] ?? 0,
        standardError: errors ? (errors[g] ?? 0) : null,
      })),
    };
  }

  /** Chance that a fish has at least one copy of an allele. Throws `FISH_UNKNOWN`, `ALLELE_UNKNOWN`. */
  carries(fish: string, allele: AlleleId): number {
    this.#expectAllele(allele);
    return this.posterior(fish).genotypes.reduce(
      (sum, one) => sum + (one.genotype.includes(allele) ? one.probability : 0),
      0,
    );
  }

  /**
   * Chance that a fish carries an allele and none of the other fish named does, for each of them in their order: that what it carries is
   * lost with it. The chances of all of them and the chance that none carries it exclude each other. `null` when the model was sampled.
   * Throws `FISH_UNKNOWN`, `ALLELE_UNKNOWN`.
   *
   * Each fish that carries it is given a weight of 1e-9; what is left of the whole then belongs to sets of genotypes with one carrier, but
   * for a part in about 1e-9. Cost: the way from each fish to the root, then one pass outward.
   */
  soleCarriers(among: readonly string[], allele: AlleleId): Float64Array | null {
    this.#expectAllele(allele);
    const places = among.map((fish) => this.#place(fish));
    if (!this.#tree) return null;
    const { genotypes } = this.#network.tables;
    const carrying = genotypes.map((one) => one.includes(allele));
    const variables = places.map((place) => this.#reduced.variableOf[place] ?? -1);
    const chance = new Float64Array(among.length);
    const sure = places.filter(
      (place, k) => variables[k]! < 0 && carrying[bitsOf(this.#reduced.domains[place] ?? 0)[0]!],
    );
    if (sure.length > 1) return chance;
    let tree = this.#tree;
    for (const v of variables) {
      if (v < 0) continue;
      const possible = this.#reduced.genotypesOf[v] ?? [];
      const values = Float64Array.from(possible, (g) => (carrying[g] ? CARRIER_WEIGHT : 1));
      tree = tree.with({ variables: [v], values });
    }
    const left = Math.exp(tree.logTotal - this.#tree.logTotal);
    variables.forEach((v, k) => {
      if (v < 0) {
        chance[k] = sure.includes(places[k]!) ? left : 0;
        return;
      }
      if (sure.length > 0) return;
      const possible = this.#reduced.genotypesOf[v] ?? [];
      const carried = tree
        .marginal([v])
        .reduce((sum, one, i) => sum + (carrying[possible[i]!] ? one : 0), 0);
      chance[k] = Math.min(1, (left * carried) / CARRIER_WEIGHT);
    });
    return chance;
  }

  /** Genotype probabilities of every fish, row-major by index in the pedigree; NaN for fish left out. */
  all(watch: Watch = this.#options): Float64Array {
    const { size } = this.#network.tables;
    const out = new Float64Array(this.#network.input.pedigree.size * size).fill(NaN);
    const put = (fish: number, row: Float64Array) => out.set(row, fish * size);
    for (let fish = 0; fish * size < out.length; fish++) {
      if (this.#known(fish) && (this.#reduced.variableOf[fish] ?? -1) < 0)
        put(fish, this.#constant(fish));
    }
    if (this.#tree) {
      this.#tree.visitMarginals(
        (v, probabilities) => put(this.#reduced.fishOf[v] ?? 0, this.#spread(v, probabilities)),
        watch,
        cancelled,
      );
    } else {
      for (const fish of this.#reduced.fishOf) put(fish, this.#solve(fish).probabilities);
    }
    return out;
  }

  /**
   * Joint genotypes of two fish, for the brood they would have; only those with a positive probability.
   * @throws HeredityError `FISH_UNKNOWN`; `ARGUMENT_INVALID` for a pair the sampler was not told of.
   */
  joint(sire: string, dam: string): JointPosterior[] {
    const s = this.#place(sire);
    const d = this.#place(dam);
    const { size, genotypes } = this.#network.tables;
    const table = this.#sampled ? this.#sampledJoint(s, d) : this.#exactJoint(s, d);
    return Array.from(table, (probability, at) => ({
      sire: genotypes[Math.floor(at / size)] ?? ['', ''],
      dam: genotypes[at % size] ?? ['', ''],
      probability,
    })).filter((one) => one.probability > 0);
  }

  /** The joint genotypes of a pair as the input of `crossMixture`. */
  possiblePairs(sire: string, dam: string): PairPossibility[] {
    const id = this.#network.tables.locus.id;
    return this.joint(sire, dam).map((one) => ({
      weight: one.probability,
      sire: { [id]: one.sire },
      dam: { [id]: one.dam },
    }));
  }

  /**
   * Genotypes of fish drawn together from all that is known of them: relatives go with each other in every draw. Each draw is
   * independent of the others when exact; out of the sweeps kept, one by chance, when sampled.
   *
   * @param seed any safe integer: the same gives the same draws.
   * @throws HeredityError `FISH_UNKNOWN`; `ARGUMENT_INVALID` for fish the sampler was not told of.
   */
  drawTogether(fish: readonly string[], count: number, seed: number): DrawnTogether {
    const places = fish.map((one) => this.#place(one));
    const random = seededChance(seed);
    const variables = places.map((place) => this.#reduced.variableOf[place] ?? -1);
    const free = [...new Set(variables.filter((v) => v >= 0))];
    const column = new Map(free.map((v, i) => [v, i]));
    const drawn = this.#tree
      ? this.#tree.draws(free, count, random)
      : this.#sampledDraws(free, count, random);
    const draws = new Uint8Array(count * fish.length);
    places.forEach((place, i) => {
      const v = variables[i]!;
      const certain = v < 0 ? bitsOf(this.#reduced.domains[place] ?? 0)[0]! : -1;
      const possible = this.#reduced.genotypesOf[v];
      const at = column.get(v) ?? 0;
      for (let k = 0; k < count; k++)
        draws[k * fish.length + i] = possible?.[drawn[k * free.length + at]!] ?? certain;
    });
    return { genotypes: this.#network.tables.genotypes, draws };
  }

  /**
   * The model with one more record. When its fish already share a table of the exact method (one fish always does, and so do
   * two with young on record) only the way from there to the root is redone; otherwise the model is built anew.
   * @throws HeredityError as {@link carrierModel}.
   */
  withRecord(record: CarrierEvidence): CarrierModel {
    const input = { ...this.#network.input, evidence: [...this.#network.input.evidence, record] };
    const { factor, log } = evidenceFactor(input, this.#network.tables, record);
    const table = reduceFactor(factor, this.#reduced);
    // A fish left out of `fish` has no variable here, though it may have more than one genotype.
    const quick = factor.fish.every((fish) => this.#known(fish)) ? this.#quickTree(table) : null;
    if (!quick || !this.#elimination) return carrierModel(input, this.#options);
    const network: Network = {
      ...this.#network,
      input,
      seen: [...this.#network.seen, factor],
      logScale: this.#network.logScale + log,
    };
    if (quick.tree.logTotal === -Infinity || quick.logConstant === -Infinity) impossible(network);
    return new CarrierModel({
      network,
      reduced: {
        ...this.#reduced,
        seen: [...this.#reduced.seen, table],
        logConstant: this.#reduced.logConstant + quick.logConstant,
      },
      options: this.#options,
      elimination: this.#elimination,
      tree: quick.tree,
      sampled: null,
      largest: this.method.largestTable,
    });
  }

  /**
   * The model without one of its records. Where that record excluded nothing (no entry of its table is zero, as with some
   * mis-scoring) only the way from it to the root is redone; otherwise the model is built anew.
   * @throws HeredityError `ARGUMENT_INVALID` for a record that is not there; else as {@link carrierModel}.
   */
  withoutRecord(id: string): CarrierModel {
    const { input } = this.#network;
    const at = input.evidence.findIndex((one) => one.id === id);
    const record = input.evidence[at];
    if (!record)
      throw new HeredityError('ARGUMENT_INVALID', `There is no record ${id} in this model.`);
    const others = <T>(list: readonly T[]) => list.filter((_, i) => i !== at);
    const rest = { ...input, evidence: others(input.evidence) };
    const table = this.#reduced.seen[at];
    if (!this.#tree || !table || !this.takesOutQuickly(id))
      return carrierModel(rest, this.#options);
    const { log } = evidenceFactor(input, this.#network.tables, record);
    const constant = table.variables.length === 0 ? Math.log(table.values[0] ?? 0) : 0;
    return new CarrierModel({
      network: {
        ...this.#network,
        input: rest,
        seen: others(this.#network.seen),
        logScale: this.#network.logScale - log,
      },
      reduced: {
        ...this.#reduced,
        seen: others(this.#reduced.seen),
        logConstant: this.#reduced.logConstant - constant,
      },
      options: this.#options,
      elimination: this.#elimination,
      tree: this.#tree.without(table),
      sampled: null,
      largest: this.method.largestTable,
    });
  }

  /** Whether {@link withoutRecord} would take the record out without building the model anew. */
  takesOutQuickly(id: string): boolean {
    const at = this.#network.input.evidence.findIndex((one) => one.id === id);
    const factor = this.#network.seen[at];
    // What a zero struck out is not in the tree any more.
    return this.#tree !== null && factor !== undefined && factor.table.every((x) => x > 0);
  }

  /** Whether {@link withRecord} would take the record in without building the model anew. Throws as {@link withRecord}. */
  takesInQuickly(record: CarrierEvidence): boolean {
    const { factor } = evidenceFactor(this.#network.input, this.#network.tables, record);
    if (!this.#tree || !factor.fish.every((fish) => this.#known(fish))) return false;
    const { variables } = reduceFactor(factor, this.#reduced);
    return variables.length === 0 || this.#tree.cliqueOf(variables) >= 0;
  }

  #quickTree(table: StateTable): { tree: CliqueTree; logConstant: number } | null {
    if (!this.#tree) return null;
    if (table.variables.length === 0) {
      return { tree: this.#tree, logConstant: Math.log(table.values[0] ?? 0) };
    }
    if (this.#tree.cliqueOf(table.variables) < 0) return null;
    return { tree: this.#tree.with(table), logConstant: 0 };
  }

  #expectAllele(allele: AlleleId): void {
    const { locus } = this.#network.tables;
    if (locus.alleles.some((one) => one.id === allele)) return;
    throw new HeredityError('ALLELE_UNKNOWN', `"${allele}" is not an allele of ${locus.id}.`);
  }

  #place(fish: string): number {
    const { pedigree } = this.#network.input;
    const place = pedigree.has(fish) ? pedigree.indexOf(fish) : -1;
    if (place < 0 || !this.#known(place)) {
      throw new HeredityError(
        'FISH_UNKNOWN',
        place < 0
          ? `Fish "${fish}" is not in the pedigree.`
          : `Fish "${fish}" is not part of this computation; name it in \`fish\`.`,
        { fish },
      );
    }
    return place;
  }

  /** Every fish in a table that was kept has been given a domain smaller than none, or a variable. */
  #known(fish: number): boolean {
    return (
      (this.#reduced.variableOf[fish] ?? -1) >= 0 ||
      bitsOf(this.#reduced.domains[fish] ?? 0).length === 1
    );
  }

  #constant(fish: number): Float64Array {
    const row = new Float64Array(this.#network.tables.size);
    for (const g of bitsOf(this.#reduced.domains[fish] ?? 0)) row[g] = 1;
    return row;
  }

  #spread(variable: number, probabilities: ArrayLike<number>): Float64Array {
    const row = new Float64Array(this.#network.tables.size);
    this.#reduced.genotypesOf[variable]?.forEach((g, i) => (row[g] = probabilities[i] ?? 0));
    return row;
  }

  #solve(fish: number): Solved {
    const v = this.#reduced.variableOf[fish] ?? -1;
    if (v < 0)
      return {
        probabilities: this.#constant(fish),
        errors: this.#sampled && new Float64Array(this.#network.tables.size),
      };
    if (this.#tree)
      return { probabilities: this.#spread(v, this.#tree.marginal([v])), errors: null };
    const answer = this.#sampled;
    return {
      probabilities: this.#spread(v, answer?.mean(v) ?? []),
      errors: this.#spread(v, answer?.error(v) ?? []),
    };
  }

  #exactJoint(s: number, d: number): Float64Array {
    const { size } = this.#network.tables;
    const out = new Float64Array(size * size);
    const tree = this.#tree;
    const vs = this.#reduced.variableOf[s] ?? -1;
    const vd = this.#reduced.variableOf[d] ?? -1;
    const ofSire = this.#solve(s).probabilities;
    if (s === d || !tree || vs < 0 || vd < 0) {
      const ofDam = this.#solve(d).probabilities;
      for (let at = 0; at < out.length; at++) {
        const [a, b] = [Math.floor(at / size), at % size];
        out[at] = s === d ? (a === b ? (ofSire[a] ?? 0) : 0) : (ofSire[a] ?? 0) * (ofDam[b] ?? 0);
      }
      return out;
    }
    // The dam's probabilities with the sire held at each of its genotypes in turn.
    const possible = this.#reduced.genotypesOf[vs] ?? [];
    possible.forEach((g, i) => {
      if (!ofSire[g]) return;
      const values = new Float64Array(possible.length);
      values[i] = 1;
      const given = this.#spread(vd, tree.with({ variables: [vs], values }).marginal([vd]));
      for (let b = 0; b < size; b++) out[g * size + b] = (ofSire[g] ?? 0) * (given[b] ?? 0);
    });
    return out;
  }

  #sampledDraws(variables: readonly number[], count: number, random: () => number): Uint8Array {
    const kept = variables.map((v) => this.#sampled?.kept(v) ?? null);
    if (kept.includes(null))
      throw new HeredityError(
        'ARGUMENT_INVALID',
        'This pedigree had to be sampled: name the fish wanted in `drawn` when the model is made.',
      );
    const sweeps = kept[0]?.length ?? 0;
    const out = new Uint8Array(count * variables.length);
    for (let k = 0; k < count; k++) {
      const sweep = Math.floor(random() * sweeps);
      kept.forEach((one, i) => (out[k * variables.length + i] = one?.[sweep] ?? 0));
    }
    return out;
  }

  #sampledJoint(s: number, d: number): Float64Array {
    const table = this.#sampled?.joint(s, d);
    if (!table) {
      throw new HeredityError(
        'ARGUMENT_INVALID',
        'This pedigree had to be sampled: name the pairs wanted in `pairs` when the model is made.',
      );
    }
    return table;
  }
}

function checkFish(input: NetworkInput, options: CarrierOptions): number[] | null {
  const { pedigree } = input;
  const named = [
    ...(options.fish ?? []),
    ...(options.pairs ?? []).flatMap((one) => [one.sire, one.dam]),
    ...(options.drawn ?? []),
  ];
  for (const id of named) {
    if (!pedigree.has(id))
      throw new HeredityError('FISH_UNKNOWN', `Fish "${id}" is not in the pedigree.`, { fish: id });
  }
  return options.fish ? named.map((id) => pedigree.indexOf(id)) : null;
}

/**
 * Posterior genotype probabilities at one locus over a whole pedigree, loops included.
 *
 * The joint probability is the product of founders' beliefs (Hardy-Weinberg proportions of their line's allele frequencies),
 * Mendelian transmission, and the likelihood of every record: phenotypes with penetrance and mis-scoring, genotypes, and
 * whole broods as one multinomial each on their parents. Fish are summed out one by one in a good order (peeling, Elston &
 * Stewart 1971, Cannings, Thompson & Skolnick 1978) on a tree of cliques, which is exact whatever the loops. Where the
 * largest table would exceed `exactLimit` the answer is sampled instead, and says so, with standard errors.
 *
 * Assumes founders unrelated and not inbred, one locus by itself, correct parentage.
 * Cost: linear in fish times the largest table, which grows by a factor of 3 for each fish the pedigree ties together.
 *
 * @throws HeredityError `EVIDENCE_IMPOSSIBLE`, `FISH_UNKNOWN`, `LOCUS_NOT_COMPUTABLE`, `PROBABILITIES_NOT_ONE`,
 * `PROBABILITY_OUT_OF_RANGE`, `COUNT_*`, `PHENOTYPE_UNKNOWN`, `GENOTYPE_INVALID`, `TOO_DENSE`, `CANCELLED`.
 * @example
 * const model = carrierModel({ pedigree, locus: findLocus('dt'), evidence, founders: { general: { alleles: { Dt: 0.9, dt: 0.1 } } } });
 * model.carries('T24-07-12', 'double');
 */
export function carrierModel(input: NetworkInput, options: CarrierOptions = {}): CarrierModel {
  const wanted = checkFish(input, options);
  const network = buildNetwork(input);
  const keep = wanted ? relevantFish(network, wanted) : new Uint8Array(input.pedigree.size).fill(1);
  const reduced = reduceNetwork(network, keep);
  if (!reduced || reduced.logConstant === -Infinity) return impossible(network);
  const { found, needed } =
    options.method === 'sampled'
      ? { found: null, needed: null }
      : bestOrder(reduced, options.exactLimit ?? EXACT_LIMIT);
  if (!found && options.method === 'exact') {
    throw new HeredityError(
      'TOO_DENSE',
      `An exact answer would need tables of more than ${String(options.exactLimit ?? EXACT_LIMIT)} entries. Ask about fewer fish, or allow sampling.`,
    );
  }
  const parts = { network, reduced, options, elimination: found, largest: needed };
  if (!found)
    return new CarrierModel({
      ...parts,
      tree: null,
      sampled: sampleAnswer(network, reduced, options),
    });
  const tree = CliqueTree.build(reduced.graph.states, found, reduced.tables, options, cancelled);
  if (tree.logTotal === -Infinity) impossible(network);
  return new CarrierModel({ ...parts, tree, sampled: null });
}
