/** Small square matrices, row by row in one array of size x size. */
export type Square = Float64Array;

export function squareOf(rows: readonly (readonly number[])[]): Square {
  const size = rows.length;
  return Float64Array.from({ length: size * size }, (_, k) => {
    const [i, j] = [Math.floor(k / size), k % size];
    // The mean of both halves, so that a hair of difference between them does no harm.
    return ((rows[i]?.[j] ?? NaN) + (rows[j]?.[i] ?? NaN)) / 2;
  });
}

/** Lower Cholesky factor; null when the matrix is not positive definite. */
export function choleskyOf(matrix: Square, size: number): Square | null {
  const l = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * size + j]!;
      for (let k = 0; k < j; k++) sum -= l[i * size + k]! * l[j * size + k]!;
      if (i !== j) l[i * size + j] = sum / l[j * size + j]!;
      else {
        if (!(sum > 1e-14 * Math.abs(matrix[i * size + i]!))) return null;
        l[i * size + i] = Math.sqrt(sum);
      }
    }
  }
  return l;
}

/** Inverse and ln of the determinant; null when the matrix is not positive definite. */
export function invertDefinite(
  matrix: Square,
  size: number,
): { readonly inverse: Square; readonly logDeterminant: number } | null {
  const l = choleskyOf(matrix, size);
  if (l === null) return null;
  let logDeterminant = 0;
  for (let i = 0; i < size; i++) logDeterminant += 2 * Math.log(l[i * size + i]!);
  const inverse = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    const column = new Float64Array(size);
    column[j] = 1;
    solveFactored(l, size, column);
    for (let i = 0; i < size; i++) inverse[i * size + j] = column[i]!;
  }
  return { inverse, logDeterminant };
}

/** Solves L L' x = b in place. */
export function solveFactored(l: Square, size: number, b: Float64Array): void {
  for (let i = 0; i < size; i++) {
    let sum = b[i]!;
    for (let k = 0; k < i; k++) sum -= l[i * size + k]! * b[k]!;
    b[i] = sum / l[i * size + i]!;
  }
  for (let i = size - 1; i >= 0; i--) {
    let sum = b[i]!;
    for (let k = i + 1; k < size; k++) sum -= l[k * size + i]! * b[k]!;
    b[i] = sum / l[i * size + i]!;
  }
}

export function multiplySquares(a: Square, b: Square, size: number): Square {
  const product = new Float64Array(size * size);
  for (let i = 0; i < size; i++)
    for (let k = 0; k < size; k++)
      for (let j = 0; j < size; j++) product[i * size + j]! += a[i * size + k]! * b[k * size + j]!;
  return product;
}

/** Eigenvalues and eigenvectors (columns) of a small symmetric matrix by Jacobi's rotations. */
export function eigenOf(
  matrix: Square,
  size: number,
): { readonly values: Float64Array; readonly vectors: Square } {
  const a = matrix.slice();
  const vectors = new Float64Array(size * size);
  for (let i = 0; i < size; i++) vectors[i * size + i] = 1;
  for (let sweep = 0; sweep < 60; sweep++) {
    let off = 0;
    for (let i = 0; i < size; i++) for (let j = 0; j < i; j++) off += a[i * size + j]! ** 2;
    if (off < 1e-300) break;
    for (let p = 0; p < size; p++)
      for (let q = p + 1; q < size; q++) rotate(a, vectors, size, p, q);
  }
  return { values: Float64Array.from({ length: size }, (_, i) => a[i * size + i]!), vectors };
}

function rotate(a: Square, vectors: Square, size: number, p: number, q: number): void {
  const apq = a[p * size + q]!;
  if (apq === 0) return;
  const angle = (a[q * size + q]! - a[p * size + p]!) / (2 * apq);
  const t = Math.sign(angle || 1) / (Math.abs(angle) + Math.sqrt(angle * angle + 1));
  const c = 1 / Math.sqrt(t * t + 1);
  const s = t * c;
  for (let k = 0; k < size; k++) {
    const [x, y] = [a[k * size + p]!, a[k * size + q]!];
    a[k * size + p] = c * x - s * y;
    a[k * size + q] = s * x + c * y;
  }
  for (let k = 0; k < size; k++) {
    const [x, y] = [a[p * size + k]!, a[q * size + k]!];
    a[p * size + k] = c * x - s * y;
    a[q * size + k] = s * x + c * y;
    const [v, w] = [vectors[k * size + p]!, vectors[k * size + q]!];
    vectors[k * size + p] = c * v - s * w;
    vectors[k * size + q] = s * v + c * w;
  }
}
