// The loops that take the time. Plain indices and local arrays only, so that they compile to tight code.

/** target[0..length) = (source row a + source row b) / 2; a and b may be the same row. */
export function combineRows(
  source: Float64Array,
  a: number,
  b: number,
  target: Float64Array,
  start: number,
  length: number,
): void {
  for (let k = 0; k < length; k++) {
    target[start + k] = 0.5 * (source[a + k]! + source[b + k]!);
  }
}

/** target[k] = row[columns[k]]. */
export function gatherRow(
  row: Float64Array,
  columns: Int32Array,
  count: number,
  target: Float64Array,
  start: number,
): void {
  for (let k = 0; k < count; k++) target[start + k] = row[columns[k]!]!;
}

/** target[k] = (row[first[k]] + row[second[k]]) / 2. */
export function gatherPairs(
  row: Float64Array,
  first: Int32Array,
  second: Int32Array,
  count: number,
  target: Float64Array,
  start: number,
): void {
  for (let k = 0; k < count; k++) {
    target[start + k] = 0.5 * (row[first[k]!]! + row[second[k]!]!);
  }
}

/** The square block of `kept` rows and columns, closed up. */
export function copyBlock(
  source: Float64Array,
  sourceStride: number,
  kept: Int32Array,
  target: Float64Array,
  targetStride: number,
): void {
  const count = kept.length;
  for (let row = 0; row < count; row++) {
    const from = kept[row]! * sourceStride;
    const to = row * targetStride;
    for (let column = 0; column < count; column++) {
      target[to + column] = source[from + kept[column]!]!;
    }
  }
}
