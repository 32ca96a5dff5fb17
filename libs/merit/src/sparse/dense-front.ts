/**
 * Factors the first `columns` columns of a dense symmetric matrix in place and takes their part off the rest. Row i stands from
 * `i * height`; only places up to the diagonal count.
 *
 * @returns -1, or the column whose pivot is not above 0.
 * Cost: columns x height^2 / 2 multiplications and more.
 */
export function factorFront(front: Float64Array, height: number, columns: number): number {
  for (let k = 0; k < columns; k++) {
    const at = k * height;
    for (let j = 0; j < k; j++)
      front[at + j] = (front[at + j]! - dot(front, at, j * height, j)) / front[j * height + j]!;
    const before = front[at + k]!;
    const pivot = before - dot(front, at, at, k);
    // What is left of a pivot after the equations before it are taken off is rounding when it is this small.
    if (!(pivot > 1e-13 * before)) return k;
    front[at + k] = Math.sqrt(pivot);
  }
  for (let i = columns; i < height; i++) {
    const at = i * height;
    for (let j = 0; j < columns; j++)
      front[at + j] = (front[at + j]! - dot(front, at, j * height, j)) / front[j * height + j]!;
  }
  takeOff(front, height, columns);
  return -1;
}

function dot(values: Float64Array, a: number, b: number, count: number): number {
  let sum = 0;
  for (let k = 0; k < count; k++) sum += values[a + k]! * values[b + k]!;
  return sum;
}

/** front[i, j] -= row i . row j over the factored columns, two rows by two at a time. */
function takeOff(front: Float64Array, height: number, columns: number): void {
  let i = columns;
  for (; i + 1 < height; i += 2) {
    const a = i * height;
    const b = a + height;
    for (let j = columns; j <= i; j += 2) {
      const c = j * height;
      const d = c + height;
      // One by one: taken apart from lists these numbers cost as much as all the rest until the loop is compiled.
      let ac = 0;
      let ad = 0;
      let bc = 0;
      let bd = 0;
      for (let k = 0; k < columns; k++) {
        const fa = front[a + k]!;
        const fb = front[b + k]!;
        const fc = front[c + k]!;
        const fd = front[d + k]!;
        ac += fa * fc;
        ad += fa * fd;
        bc += fb * fc;
        bd += fb * fd;
      }
      front[a + j]! -= ac;
      front[a + j + 1]! -= ad;
      front[b + j]! -= bc;
      front[b + j + 1]! -= bd;
    }
  }
  if (i < height) {
    for (let j = columns; j <= i; j++)
      front[i * height + j]! -= dot(front, i * height, j * height, columns);
  }
}
