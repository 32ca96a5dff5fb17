/**
 * The entries in order of their keys (0 to `keys` - 1), those of one key as they stood in `before`, or as they stand: ordered by a minor
 * key first and by the major one then, they are ordered by both.
 *
 * Cost: keys + entries.
 */
export function countingOrder(
  key: Int32Array,
  keys: number,
  before: Int32Array | undefined,
): Int32Array {
  const start = new Int32Array(keys + 1);
  for (const k of key) start[k + 1]!++;
  for (let k = 0; k < keys; k++) start[k + 1]! += start[k]!;
  const order = new Int32Array(key.length);
  for (let position = 0; position < key.length; position++) {
    const entry = before === undefined ? position : before[position]!;
    order[start[key[entry]!]!++] = entry;
  }
  return order;
}
