import { LinearMatrixBuilder, type LinearMatrix } from '../sparse/linear-matrix.js';
import { orderByUnits } from '../sparse/ordering.js';
import { symbolicFactor, type SymbolicFactor } from '../sparse/symbolic-factor.js';
import { designFixed, rowPlaces, type FixedDesign } from './fixed-design.js';
import type { MixedModel } from './mixed-model.js';
import { RowEntries } from './row-entries.js';

/** What a part of the coefficient matrix is multiplied by: an element of an inverse covariance matrix. */
export type PartKey =
  | { readonly kind: 'residual'; readonly pattern: number; readonly s: number; readonly t: number }
  | { readonly kind: 'random'; readonly term: number; readonly i: number; readonly j: number };

/** Rows in which the same traits are scored. */
export interface ScorePattern {
  readonly traits: readonly number[];
  readonly rows: number;
  /** Sum of ln of the rows' weights. */
  readonly logWeights: number;
}

/**
 * Henderson's mixed-model equations of a model, whatever its variances: pattern, parts and the rows' entries.
 *
 * Source: Henderson CR (1984) Applications of Linear Models in Animal Breeding, chapter 5; groups by the transformation of Quaas RL
 * (1988) J Dairy Sci 71:1338-1345.
 * Cost: rows times the square of a row's entries; entries of each K^-1 times the square of its slots.
 */
export class Equations {
  readonly design: FixedDesign;
  readonly size: number;
  /** Equation of each level and slot of each random term (`level * slots + slot`), -1 for a group that is not estimated. */
  readonly termEquation: readonly Int32Array[];
  readonly patterns: readonly ScorePattern[];
  /** Pattern of each row, -1 where nothing is scored. */
  readonly patternOf: Int32Array;
  readonly matrix: LinearMatrix;
  readonly parts: readonly PartKey[];
  readonly rows: readonly RowEntries[];
  /** Scores in all. */
  readonly scores: number;
  readonly #unitOf: Int32Array;
  #units: number;
  #symbolic: SymbolicFactor | undefined;

  constructor(readonly model: MixedModel) {
    this.design = designFixed(model);
    const fixed = this.design.equations.length;
    const unitOf: number[] = Array.from({ length: fixed }, (_, k) => k);
    this.#units = fixed;
    this.termEquation = model.random.map((_, term) => this.#numberTerm(term, unitOf));
    this.size = unitOf.length;
    this.#unitOf = Int32Array.from(unitOf);
    ({ patterns: this.patterns, patternOf: this.patternOf } = scorePatterns(model));
    this.scores = this.patterns.reduce((sum, p) => sum + p.rows * p.traits.length, 0);
    this.rows = model.traits.map((_, trait) => this.#rowEntries(trait));
    const builder = new LinearMatrixBuilder(this.size);
    this.parts = [...this.#addRows(builder, 0), ...this.#addTerms(builder)];
    this.matrix = builder.build(this.parts.length);
  }

  /** The order of elimination and pattern of the factor; worked out once. */
  get symbolic(): SymbolicFactor {
    return this.affordable(Infinity)!;
  }

  /** The same, or null when the factor would hold more than `entries` numbers. */
  affordable(entries: number): SymbolicFactor | null {
    if (this.#symbolic !== undefined) return this.#symbolic;
    const order = orderByUnits(this.matrix, this.#unitOf, this.#units, entries);
    if (order === null) return null;
    this.#symbolic = symbolicFactor(this.matrix, order);
    return this.#symbolic;
  }

  /** Unit of each equation, for preconditioning: all slots of one level. */
  get unitOf(): Int32Array {
    return this.#unitOf;
  }

  #numberTerm(term: number, unitOf: number[]): Int32Array {
    const { levels, slots, groups } = this.model.random[term]!;
    const numbers = new Int32Array(levels * slots.length).fill(-1);
    const firstGroup = levels - (groups?.names.length ?? 0);
    for (let level = 0; level < levels; level++) {
      const unit = this.#units++;
      slots.forEach(({ trait }, slot) => {
        const known =
          level < firstGroup || this.design.groupsEstimated[trait]![level - firstGroup] === true;
        if (!known) return;
        numbers[level * slots.length + slot] = unitOf.length;
        unitOf.push(unit);
      });
    }
    return numbers;
  }

  #rowEntries(trait: number): RowEntries {
    const { model, design } = this;
    const { values } = model.traits[trait]!;
    const entries = new RowEntries(model.rows);
    for (let row = 0; row < model.rows; row++) {
      if (!Number.isNaN(values[row]!)) {
        rowPlaces(design.columns, row, (place, value) => {
          const equation = design.equationOf[trait]![place]!;
          if (equation >= 0) entries.add(equation, value);
        });
        model.random.forEach(({ slots }, term) => {
          slots.forEach(({ trait: of, level, coefficient }, slot) => {
            if (of !== trait || level[row]! < 0) return;
            entries.add(
              this.termEquation[term]![level[row]! * slots.length + slot]!,
              coefficient?.[row] ?? 1,
            );
          });
        });
      }
      entries.endRow();
    }
    return entries;
  }

  #addRows(builder: LinearMatrixBuilder, firstPart: number): PartKey[] {
    const keys: PartKey[] = [];
    const partOf = this.patterns.map(({ traits }, pattern) =>
      traits.map((s, a) =>
        traits.slice(0, a + 1).map((t) => {
          keys.push({ kind: 'residual', pattern, s, t });
          return firstPart + keys.length - 1;
        }),
      ),
    );
    for (let row = 0; row < this.model.rows; row++) {
      const pattern = this.patternOf[row]!;
      if (pattern < 0) continue;
      const weight = this.model.weights?.[row] ?? 1;
      const { traits } = this.patterns[pattern]!;
      for (let a = 0; a < traits.length; a++) {
        for (let b = 0; b <= a; b++)
          this.rows[traits[a]!]!.addProducts(
            builder,
            partOf[pattern]![a]![b]!,
            row,
            weight,
            a === b ? undefined : this.rows[traits[b]!]!,
          );
      }
    }
    return keys;
  }

  #addTerms(builder: LinearMatrixBuilder): PartKey[] {
    const keys: PartKey[] = [];
    const before = this.patterns.reduce(
      (sum, { traits }) => sum + (traits.length * (traits.length + 1)) / 2,
      0,
    );
    this.model.random.forEach(({ levels, slots, inverse }, term) => {
      const numbers = this.termEquation[term]!;
      const at = (level: number, slot: number): number => numbers[level * slots.length + slot]!;
      for (let i = 0; i < slots.length; i++) {
        for (let j = 0; j <= i; j++) {
          const part = before + keys.length;
          keys.push({ kind: 'random', term, i, j });
          const add = (a: number, b: number, value: number): void => {
            if (at(a, i) < 0 || at(b, j) < 0) return;
            builder.add(part, at(a, i), at(b, j), value);
          };
          if (inverse === undefined)
            for (let level = 0; level < levels; level++) add(level, level, 1);
          else {
            for (let k = 0; k < inverse.rows.length; k++) {
              const [a, b] = [inverse.rows[k]!, inverse.columns[k]!];
              // Between two slots both halves are places of their own.
              if (i !== j || a >= b) add(a, b, inverse.values[k]!);
            }
          }
        }
      }
    });
    return keys;
  }
}

function scorePatterns({ rows, traits, weights }: MixedModel) {
  const patternOf = new Int32Array(rows).fill(-1);
  const found = new Map<string, number>();
  const patterns: { traits: number[]; rows: number; logWeights: number }[] = [];
  for (let row = 0; row < rows; row++) {
    const scored = traits.flatMap(({ values }, t) => (Number.isNaN(values[row]!) ? [] : [t]));
    if (scored.length === 0) continue;
    const key = scored.join(' ');
    let pattern = found.get(key);
    if (pattern === undefined) {
      pattern = patterns.length;
      found.set(key, pattern);
      patterns.push({ traits: scored, rows: 0, logWeights: 0 });
    }
    patternOf[row] = pattern;
    patterns[pattern]!.rows++;
    patterns[pattern]!.logWeights += Math.log(weights?.[row] ?? 1);
  }
  return { patterns, patternOf };
}
