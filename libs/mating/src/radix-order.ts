const DIGITS = 0x10000;

/**
 * Places 0 to `length` - 1 in ascending order of keys: by the last key, where it is equal by the one before, and so on. `NaN` comes last, 0 and -0
 * are equal; places equal in all keys stay as they were.
 *
 * Radix sort by the bits of the numbers, the least important digit first (Knuth, The Art of Computer Programming, volume 3, section 5.2.5; from memory).
 *
 * Cost: up to four passes a key, whatever the numbers; a digit that all share takes no pass.
 */
export function radixOrder(keys: readonly Float64Array[], length: number): Uint32Array {
  let order = Uint32Array.from({ length }, (_, place) => place);
  let spare = new Uint32Array(length);
  const counts = new Uint32Array(DIGITS);
  for (const key of keys) {
    const bits = sortableBits(key, length);
    for (const [word, shift] of WORDS) {
      if (pass(bits, word, shift, order, spare, counts)) [order, spare] = [spare, order];
    }
  }
  return order;
}

/** The 16-bit digits of a number in two words of 32 bits, the least important first. */
const WORDS = [
  [0, 0],
  [0, 16],
  [1, 0],
  [1, 16],
] as const;

/** Two words a number, low and high, that stand in its order as whole numbers without a sign. */
function sortableBits(key: Float64Array, length: number): Uint32Array {
  const number = new Float64Array(1);
  const halves = new Uint32Array(number.buffer);
  // Which half comes first in memory depends on the machine.
  number[0] = 1;
  const low = halves[1] === 0 ? 1 : 0;
  const bits = new Uint32Array(2 * length);
  for (let at = 0; at < length; at++) {
    const value = key[at]!;
    // A sum with 0 has no negative nought.
    number[0] = value + 0;
    const negative = halves[1 - low]! >>> 31 === 1;
    const none = Number.isNaN(value);
    bits[2 * at] = none ? 0xffffffff : negative ? ~halves[low]! : halves[low]!;
    bits[2 * at + 1] = none
      ? 0xffffffff
      : negative
        ? ~halves[1 - low]!
        : halves[1 - low]! ^ 0x80000000;
  }
  return bits;
}

/** One digit: from `order` into `into`; `false` where all share it, and nothing was done. */
function pass(
  bits: Uint32Array,
  word: number,
  shift: number,
  order: Uint32Array,
  into: Uint32Array,
  counts: Uint32Array,
): boolean {
  counts.fill(0);
  const { length } = order;
  const digitOf = (place: number): number => (bits[2 * place + word]! >>> shift) & (DIGITS - 1);
  for (let k = 0; k < length; k++) counts[digitOf(k)]!++;
  if (length === 0 || counts[digitOf(0)] === length) return false;
  for (let digit = 0, from = 0; digit < DIGITS; digit++) {
    const count = counts[digit]!;
    counts[digit] = from;
    from += count;
  }
  for (let k = 0; k < length; k++) {
    const place = order[k]!;
    into[counts[digitOf(place)]!++] = place;
  }
  return true;
}
