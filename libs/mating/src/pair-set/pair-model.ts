import type { Highs, Model } from 'highs';
import { FIRST_FISH_ROW, pairLayout, SCALE, type PairLayout } from './pair-layout.js';
import type { PairRules } from './swaps.js';

/** A straight line below one of the squares (f's)², touching it where f's is `at`. */
export interface Tangent {
  readonly square: number;
  readonly at: number;
}

/** What the solver says of one run. */
export interface Solved {
  readonly state: 'solved' | 'infeasible' | 'stopped';
  /** No choice is better than this, in the model's own sense: the least of what is minimised. */
  readonly bound: number;
  /** Share of each cell; empty when none was found. */
  readonly share: Float64Array;
  /** Of each square: f's, and the solver's figure for (f's)², which may be below it. */
  readonly roots: Float64Array;
  readonly squares: Float64Array;
  /** By how much at least what is minimised grows with each cell; of a run without whole numbers. */
  readonly reduced: Float64Array;
}

export interface WholeOptions {
  readonly seconds: number;
  /** Stops once the gap is this share of the answer. */
  readonly gap: number;
  /** Whole pairs to begin from. */
  readonly start: readonly number[] | null;
}

/** Cells taken in at a time. */
const BATCH = 400;
const FEASIBLE = 2;

/**
 * The linear form of the choice of pairs in HiGHS, to which tangents may be added. Of the cells only those are in it that could be of use:
 * the others are taken in when their reduced cost says so (column generation; Dantzig GB & Wolfe P 1960, Oper Res 8:101-111), so that
 * 40,000 pairs take no longer than a few thousand. It owns memory of the solver: call {@link PairModel.end}.
 */
export class PairModel {
  readonly #model: Model;
  readonly #layout: PairLayout;
  /** Cells that are in it, by column. */
  readonly #inside: number[] = [];
  readonly #isInside: Uint8Array;
  #cost: Float64Array;

  /** @param cost of each cell, which is minimised; {@link PairModel.aimAtKinship} changes that. */
  constructor(
    private readonly highs: Highs,
    private readonly rules: PairRules,
    pairs: number,
    private readonly cost: Float64Array,
    firstCells: Iterable<number>,
  ) {
    this.#layout = pairLayout(rules, pairs, highs.infinity);
    this.#isInside = new Uint8Array(cost.length);
    this.#cost = cost;
    this.#model = highs.createModel(this.#layout.data);
    this.#model.options.set({ output_flag: false, mip_feasibility_tolerance: 1e-7 });
    this.takeIn([...rules.fixed, ...firstCells]);
  }

  end(): void {
    this.#model.dispose();
  }

  /** From now on n'Kn is minimised, or again the cost of the cells. */
  aimAtKinship(isAim: boolean): void {
    const { kinship, cells } = this.#layout;
    this.#cost = isAim ? new Float64Array(this.cost.length) : this.cost;
    this.#model.changeColsCost(
      { kind: 'range', from: 0, to: cells - 1 },
      isAim ? kinship : new Float64Array(cells),
    );
    this.#inside.forEach((cell, k) => this.#model.changeColCost(cells + k, this.#cost[cell]!));
  }

  /** No limit on n'Kn, or that of the rules again. */
  limit(most: number): void {
    const { infinity } = this.highs;
    this.#model.changeRowBounds(1, -infinity, most === Infinity ? infinity : SCALE * most);
  }

  /** (f's)² is at least 2 a f's - a². */
  addTangent({ square, at }: Tangent): void {
    const { roots, squares } = this.#layout;
    this.#model.addRow(-SCALE * at * at, this.highs.infinity, {
      indices: Int32Array.of(roots + square, squares + square),
      values: Float64Array.of(-2 * SCALE * at, SCALE),
    });
  }

  /** Rules out exactly this choice of cells. */
  forbid(chosen: readonly number[]): void {
    const columns = new Map(this.#inside.map((cell, k) => [cell, this.#layout.cells + k]));
    this.#model.addRow(0, chosen.length - 1, {
      indices: Int32Array.from(chosen, (cell) => columns.get(cell)!),
      values: new Float64Array(chosen.length).fill(1),
    });
  }

  /** Takes cells in that are open and not in it yet. */
  takeIn(cells: Iterable<number>): void {
    const { open, fixed } = this.rules;
    const fresh = [...new Set(cells)].filter(
      (cell) => open[cell] === 1 && this.#isInside[cell] === 0,
    );
    if (fresh.length === 0) return;
    const { male, female } = this.rules.cells;
    this.#model.addCols({
      cost: Float64Array.from(fresh, (cell) => this.#cost[cell]!),
      lower: Float64Array.from(fresh, (cell) => (fixed.has(cell) ? 1 : 0)),
      upper: new Float64Array(fresh.length).fill(1),
      matrix: {
        format: 'csc',
        numRows: this.#model.getDimensions().numRows,
        numCols: fresh.length,
        starts: Int32Array.from({ length: fresh.length + 1 }, (_, k) => 3 * k),
        indices: Int32Array.from(
          fresh.flatMap((cell) => [
            0,
            FIRST_FISH_ROW + male[cell]!,
            FIRST_FISH_ROW + female[cell]!,
          ]),
        ),
        values: new Float64Array(3 * fresh.length).fill(1),
      },
    });
    for (const cell of fresh) {
      this.#inside.push(cell);
      this.#isInside[cell] = 1;
    }
  }

  /** The best with fractions, over all cells. */
  relaxed(seconds: () => number): Solved {
    for (;;) {
      const solved = this.#run(seconds());
      if (solved.state !== 'solved') {
        if (solved.state === 'infeasible' && this.#takeInAll()) continue;
        return solved;
      }
      const priced = this.#reduced();
      const wanted = [...priced.keys()].filter(
        (cell) =>
          this.#isInside[cell] === 0 && this.rules.open[cell] === 1 && priced[cell]! < -1e-7,
      );
      if (wanted.length === 0) return { ...solved, reduced: priced };
      this.takeIn(wanted.sort((a, b) => priced[a]! - priced[b]!).slice(0, BATCH));
    }
  }

  /** Leaves out of a choice of whole cells what costs more than the best at hand, and takes in what does not. */
  wantWhole(reduced: Float64Array, room: number): void {
    const { open, fixed } = this.rules;
    const { cells, counts, roots } = this.#layout;
    this.takeIn([...reduced.keys()].filter((cell) => open[cell] === 1 && reduced[cell]! <= room));
    const { integer } = this.highs.constants.variableType;
    this.#inside.forEach((cell, k) => {
      if (reduced[cell]! > room && !fixed.has(cell)) this.#model.changeColBounds(cells + k, 0, 0);
      this.#model.changeColIntegrality(cells + k, integer);
    });
    for (let column = counts; column < roots; column++)
      this.#model.changeColIntegrality(column, integer);
  }

  whole({ seconds, gap, start }: WholeOptions): Solved {
    if (start !== null) this.#model.setSolution({ colValue: this.#valuesOf(start) });
    this.#model.options.set({ mip_rel_gap: gap, mip_abs_gap: 1e-9 });
    const solved = this.#run(seconds);
    const bound = Number(this.#model.info.get('mip_dual_bound'));
    return solved.state === 'infeasible' ? solved : { ...solved, bound };
  }

  #takeInAll(): boolean {
    const before = this.#inside.length;
    this.takeIn(this.rules.open.keys());
    return this.#inside.length > before;
  }

  #run(seconds: number): Solved {
    const model = this.#model;
    model.zeroAllClocks();
    model.options.set('time_limit', Math.min(1e6, Math.max(0.05, seconds)));
    const { modelStatus } = model.run();
    const { modelStatus: states } = this.highs.constants;
    if (modelStatus === states.infeasible || modelStatus === states.unboundedOrInfeasible)
      return { ...NOTHING, state: 'infeasible', bound: Infinity };
    const optimal = modelStatus === states.optimal;
    const state = optimal ? 'solved' : 'stopped';
    const bound = optimal ? model.getObjectiveValue() : -Infinity;
    if (model.info.get('primal_solution_status') !== FEASIBLE) return { ...NOTHING, state, bound };
    const { colValue } = model.getSolution();
    const { cells, roots, squares } = this.#layout;
    const share = new Float64Array(this.cost.length);
    this.#inside.forEach((cell, k) => (share[cell] = colValue[cells + k]!));
    return {
      state,
      bound,
      share,
      roots: colValue.slice(roots, squares),
      squares: colValue.slice(squares, cells),
      reduced: EMPTY,
    };
  }

  /** What each cell adds beyond what its rows pay for it. */
  #reduced(): Float64Array {
    const { rowDual } = this.#model.getSolution();
    const { male, female } = this.rules.cells;
    return this.#cost.map(
      (cost, cell) =>
        cost -
        rowDual[0]! -
        rowDual[FIRST_FISH_ROW + male[cell]!]! -
        rowDual[FIRST_FISH_ROW + female[cell]!]!,
    );
  }

  #valuesOf(chosen: readonly number[]): Float64Array {
    const isChosen = new Set(chosen);
    const before = this.#layout.valuesOf(chosen);
    const cells = this.#inside.map((cell) => (isChosen.has(cell) ? 1 : 0));
    return Float64Array.from([...before, ...cells]);
  }
}

const EMPTY = new Float64Array(0);
const NOTHING = { share: EMPTY, roots: EMPTY, squares: EMPTY, reduced: EMPTY };
