import { mostOnDiagonal } from './most-on-diagonal.js';

/**
 * The square n'Kn in three parts: d n² of each candidate, e s² of each kind (s: what its candidates have together), and a sum of squares
 * (f's)². For whole numbers the first two are chains of straight lines; the more stands in them, the nearer the linear form comes to whole
 * broods.
 *
 * Candidates of one kind are alike: full sibs with no young among the candidates. They have the same coancestry with all others; what one
 * has with itself beyond what it has with its like (the part of its alleles that sampling in its parents gave it alone) is d. The e are as
 * much of what is left on the diagonal as leaves no negative direction ({@link mostOnDiagonal}). So the squares are as many as there are
 * families, not as there are fish.
 */
export interface KinshipParts {
  /** K, candidates x candidates. */
  readonly whole: Float64Array;
  readonly size: number;
  readonly kindOf: Int32Array;
  /** d of each candidate, e of each kind. */
  readonly own: Float64Array;
  readonly ownOfKind: Float64Array;
  /** f of each square, an entry a kind. */
  readonly factors: readonly Float64Array[];
}

const SAME = 1e-12;
/** Squares whose share is smaller are left out: what is dropped is never negative, so that a bound stays one. */
const SMALL = 1e-9;
const HALVINGS = 12;

/** Cost: the square of the candidates, and the cube of the families. */
export function kinshipParts(whole: Float64Array, size: number): KinshipParts {
  const found = kinds(whole, size);
  const own = ownParts(whole, size, found);
  const parts = partsOf(whole, size, found.kindOf, own);
  if (parts !== null) return parts;
  // Alike by chance and not by descent: then each candidate is a kind of its own.
  const alone = Int32Array.from({ length: size }, (_, k) => k);
  const plain = partsOf(whole, size, alone, new Float64Array(size));
  return (
    plain ?? {
      whole,
      size,
      kindOf: alone,
      own: new Float64Array(size),
      ownOfKind: new Float64Array(size),
      factors: [],
    }
  );
}

function partsOf(
  whole: Float64Array,
  size: number,
  kindOf: Int32Array,
  own: Float64Array,
): KinshipParts | null {
  const count = kindOf.reduce((top, kind) => Math.max(top, kind + 1), 0);
  const first = Array.from({ length: count }, (_, kind) => kindOf.indexOf(kind));
  const rest = Float64Array.from({ length: count ** 2 }, (_, cell) => {
    const [a, b] = [first[Math.floor(cell / count)]!, first[cell % count]!];
    const each = whole[a * size + b]!;
    return a === b ? each - own[a]! : each;
  });
  const wanted = mostOnDiagonal(rest, count);
  const share = shareThatFits(rest, wanted, count);
  const factors = squaresOf(lessOf(rest, wanted, share), count);
  if (factors === null) return null;
  return { whole, size, kindOf, own, ownOfKind: wanted.map((each) => share * each), factors };
}

/** The matrix with a share of `taken` off its diagonal. */
const lessOf = (matrix: Float64Array, taken: Float64Array, share: number): Float64Array =>
  matrix.map((each, cell) =>
    cell % (taken.length + 1) === 0 ? each - share * taken[cell / (taken.length + 1)]! : each,
  );

/** The largest share of it that leaves no negative direction. */
function shareThatFits(matrix: Float64Array, taken: Float64Array, size: number): number {
  let [low, high] = [0, 1];
  for (let turn = 0; turn < HALVINGS && low < 1; turn++) {
    const share = turn === 0 ? 1 : (low + high) / 2;
    if (squaresOf(lessOf(matrix, taken, share), size) === null) high = share;
    else low = share;
  }
  return low;
}

interface Kinds {
  readonly kindOf: Int32Array;
  readonly first: readonly number[];
}

/** What a candidate has with itself beyond what it has with others of its kind; 0 where it is alone. */
function ownParts(whole: Float64Array, size: number, { kindOf, first }: Kinds): Float64Array {
  const like = first.map((fish, kind) => kindOf.findIndex((of, k) => of === kind && k !== fish));
  return Float64Array.from(kindOf, (kind, k) => {
    const other = like[kind]!;
    return other < 0 ? 0 : whole[k * size + k]! - whole[first[kind]! * size + other]!;
  });
}

/** Which candidates have the same coancestry with all others and with themselves; the first of each kind. */
function kinds(whole: Float64Array, size: number): Kinds {
  const kindOf = new Int32Array(size);
  const first: number[] = [];
  const alike = (a: number, b: number): boolean => {
    for (let k = 0; k < size; k++) {
      const other = k === a ? b : k === b ? a : k;
      if (Math.abs(whole[a * size + k]! - whole[b * size + other]!) > SAME) return false;
    }
    return true;
  };
  for (let fish = 0; fish < size; fish++) {
    const found = first.findIndex((one) => alike(one, fish));
    kindOf[fish] = found < 0 ? first.push(fish) - 1 : found;
  }
  return { kindOf, first };
}

/** A matrix as a sum of squares, the largest first (Cholesky with pivots); null when it has a negative direction. */
function squaresOf(matrix: Float64Array, size: number): Float64Array[] | null {
  const rest = matrix.slice();
  const squares: Float64Array[] = [];
  for (;;) {
    let [pivot, largest] = [-1, SMALL];
    for (let k = 0; k < size; k++) {
      const own = rest[k * size + k]!;
      if (own < -SMALL) return null;
      if (own > largest) [pivot, largest] = [k, own];
    }
    if (pivot < 0) return squares;
    const root = Math.sqrt(largest);
    const square = Float64Array.from({ length: size }, (_, k) => rest[pivot * size + k]! / root);
    for (let i = 0; i < size; i++) {
      if (square[i] === 0) continue;
      for (let j = 0; j < size; j++) rest[i * size + j]! -= square[i]! * square[j]!;
    }
    for (let k = 0; k < size; k++) rest[pivot * size + k] = rest[k * size + pivot] = 0;
    squares.push(square);
  }
}

/** K times n. */
export function timesKinship({ whole, size }: KinshipParts, n: ArrayLike<number>): Float64Array {
  const product = new Float64Array(size);
  for (let k = 0; k < size; k++) {
    const each = n[k]!;
    if (each === 0) continue;
    for (let j = 0; j < size; j++) product[j]! += each * whole[k * size + j]!;
  }
  return product;
}

/** n'Kn. */
export function squareOf(parts: KinshipParts, n: ArrayLike<number>): number {
  return timesKinship(parts, n).reduce((sum, each, k) => sum + each * n[k]!, 0);
}
